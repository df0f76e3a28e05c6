#pragma once

#include <condition_variable>
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <thread>

namespace sixty::gui {

/// Writes small files whole or not at all, from a thread of its own, so that a slow disk stops no
/// frame. Of several texts for one file the newest is written. What cannot be written is kept and
/// tried again with the next text for that file, or when try_again() says so. The file's folder is
/// made where it is missing, and what a killed program left beside the file is removed.
/// Order: any thread may call; all that is asked for is tried once more before the writer goes.
class SheetWriter {
 public:
  SheetWriter();
  SheetWriter(const SheetWriter&) = delete;
  SheetWriter& operator=(const SheetWriter&) = delete;
  ~SheetWriter();

  void write(const std::string& path, const std::string& text);
  /// Takes up again what has failed.
  void try_again();
  /// Waits until all that was asked for has been tried.
  void settle();

  /// Why that file could not be written last, with its name; empty if it could.
  std::string trouble(const std::string& path) const;
  /// The first of all such reasons, for a staff page; empty if all is written.
  std::string trouble() const;

 private:
  struct Sheet {
    std::string text;
    std::string trouble;
    bool waits = false;  // to be written now
  };

  void work();
  std::map<std::string, Sheet>::iterator next();

  mutable std::mutex mutex_;
  std::condition_variable asked_, done_;
  std::map<std::string, Sheet> sheets_;  // by path; only what is not yet written
  std::set<std::string> swept_;  // paths beside which nothing of the dead lies; of the thread
  bool busy_ = false, ends_ = false;
  std::thread thread_;
};

}  // namespace sixty::gui
