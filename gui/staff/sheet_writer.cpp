#include "gui/staff/sheet_writer.hpp"

#include <algorithm>

#include "gui/keep/write.hpp"
#include "gui/staff/aside.hpp"
#include "sim/base/file.hpp"

namespace sixty::gui {

SheetWriter::SheetWriter() : thread_([this] { work(); }) {}

SheetWriter::~SheetWriter() {
  try_again();
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  asked_.notify_one();
  thread_.join();
}

void SheetWriter::write(const std::string& path, const std::string& text) {
  {
    const std::lock_guard lock(mutex_);
    Sheet& sheet = sheets_[path];
    sheet.text = text;
    sheet.waits = true;
  }
  asked_.notify_one();
}

void SheetWriter::try_again() {
  {
    const std::lock_guard lock(mutex_);
    for (auto& [path, sheet] : sheets_) sheet.waits = true;
  }
  asked_.notify_one();
}

void SheetWriter::settle() {
  std::unique_lock lock(mutex_);
  done_.wait(lock, [this] { return !busy_ && next() == sheets_.end(); });
}

std::string SheetWriter::trouble(const std::string& path) const {
  const std::lock_guard lock(mutex_);
  const auto sheet = sheets_.find(path);
  return sheet == sheets_.end() ? "" : sheet->second.trouble;
}

std::string SheetWriter::trouble() const {
  const std::lock_guard lock(mutex_);
  for (const auto& [path, sheet] : sheets_) {
    if (!sheet.trouble.empty()) return sheet.trouble;
  }
  return "";
}

std::map<std::string, SheetWriter::Sheet>::iterator SheetWriter::next() {
  return std::find_if(sheets_.begin(), sheets_.end(),
                      [](const auto& entry) { return entry.second.waits; });
}

void SheetWriter::work() {
  std::unique_lock lock(mutex_);
  while (true) {
    asked_.wait(lock, [this] { return ends_ || next() != sheets_.end(); });
    const auto at = next();
    if (at == sheets_.end()) return;
    at->second.waits = false;
    busy_ = true;
    const std::string path = at->first, text = at->second.text;
    lock.unlock();
    std::string trouble;
    if (swept_.insert(path).second) remove_leftovers(path);
    const bool done =
        make_folder(folder_of(path), trouble) && write_file_whole(path, text, trouble);
    lock.lock();
    busy_ = false;
    at->second.trouble = trouble;
    // A newer text may have come meanwhile.
    if (done && !at->second.waits) sheets_.erase(at);
    done_.notify_all();
  }
}

}  // namespace sixty::gui
