#include "gui/tour/film.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>

#include "gui/bench/moments.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/deeds.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

constexpr const char* kFrame = "frame-";
constexpr const char* kEnding = ".png";
constexpr std::size_t kDigits = 6;
constexpr std::size_t kTold_s = 2;    // of the wall
constexpr std::size_t kMostTold = 2;  // at once

bool is_frame_name(std::string name) {
  if (name.ends_with(kPartOfPicture)) name.resize(name.size() - std::string(kPartOfPicture).size());
  const std::string begin = kFrame, end = kEnding;
  return name.size() == begin.size() + kDigits + end.size() && name.rfind(begin, 0) == 0 &&
         name.substr(begin.size() + kDigits) == end &&
         std::all_of(name.begin() + static_cast<std::ptrdiff_t>(begin.size()),
                     name.end() - static_cast<std::ptrdiff_t>(end.size()),
                     [](char c) { return c >= '0' && c <= '9'; });
}

std::string mistake(const std::string& folder, const std::string& what, const std::string& mend) {
  return fmt::format("{}: {}\n  mend:     {}\n", printable(folder), what, mend);
}

/// The last picture is of the end that was asked for, wherever the one before lies.
void end_at(SimTime to, std::vector<SimTime>& times) {
  const bool is_whole = times.size() <= kMostFrames;
  if (is_whole && !times.empty() && times.back() < to) times.push_back(to);
}

}  // namespace

std::vector<SimTime> film_times(SimTime from, SimTime to, double speed) {
  std::vector<SimTime> times;
  for (std::size_t k = 0; times.size() <= kMostFrames; ++k) {
    const double gone_ns = static_cast<double>(k) * speed / kFilmRate * 1e9;
    if (gone_ns > static_cast<double>(to - from)) break;
    times.push_back(from + std::llround(gone_ns));
  }
  end_at(to, times);
  return times;
}

std::vector<SimTime> stretched_film_times(Session& session, SimTime from, SimTime to) {
  std::vector<SimTime> times;
  StretchedTime stretch;
  for (SimTime t = from; t <= to && times.size() <= kMostFrames;
       t = stretch.after(session, t, 1.0 / kFilmRate))
    times.push_back(t);
  end_at(to, times);
  return times;
}

std::vector<FilmDeed> film_deeds(Session& session, SimTime from, SimTime to) {
  std::vector<FilmDeed> deeds;
  std::map<std::pair<PartId, std::string_view>, SimTime> last;
  for (const explain::Deed& deed : explain::deeds_in(session, from, to)) {
    // What goes on for a while, as ringing does, is told once.
    const auto [before, first] = last.try_emplace({deed.part, deed.kind}, deed.at);
    const bool goes_on = !first && deed.at - before->second < kSecond;
    before->second = deed.at;
    if (goes_on) continue;
    const std::string part = words_of_key(session.installation().parts[deed.part].name);
    const Declaration& declared = session.installation().parts[deed.part].kind->declaration;
    const std::string happens = declared.meaning_of(std::string(deed.kind));
    deeds.push_back({deed.at, deed.acted ? say("{}: {}", part, happens)
                                         : say("{}: {}, but nothing comes of it", part, happens)});
  }
  return deeds;
}

std::string film_caption(const std::vector<FilmDeed>& deeds, const std::vector<SimTime>& times,
                         std::size_t frame, const std::function<bool(const std::string&)>& fits) {
  const std::size_t first = frame - std::min(frame, kTold_s * kFilmRate - 1);
  const auto end = std::upper_bound(deeds.begin(), deeds.end(), times[frame],
                                    [](SimTime t, const FilmDeed& deed) { return t < deed.at; });
  std::string text;
  std::size_t told = 0;
  for (auto it = end; it != deeds.begin() && told < kMostTold; ++told) {
    --it;
    // What began before the first of the pictures was told with those before it.
    if (first > 0 ? it->at <= times[first - 1] : it->at < times[0]) break;
    const std::string both = text.empty() ? it->text : it->text + ",  " + text;
    if (!text.empty() && !fits(both)) break;
    text = both;
  }
  return text;
}

std::string frame_name(std::size_t frame) {
  return fmt::format("{}{:0{}}{}", kFrame, frame, kDigits, kEnding);
}

std::string prepare_film_folder(const std::string& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (!fs::is_directory(folder, error))
    return mistake(folder, "this folder cannot be made",
                   "name a folder where one may be made, as in --film frames");
  std::vector<fs::path> old;
  for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
    const std::string name = it->path().filename().string();
    if (!is_frame_name(name))
      return mistake(
          folder,
          "there is something in this folder that is no picture of a film: " + printable(name),
          "name another folder, or empty this one");
    old.push_back(it->path());
  }
  for (const fs::path& path : old) {
    if (!error) fs::remove(path, error);
  }
  if (error)
    return mistake(folder, "this folder cannot be read or emptied: " + error.message(),
                   "name another folder");
  return "";
}

bool is_whole_png(const std::string& path) {
  // A PNG file ends in an IEND chunk: four bytes of length, its name, four of checksum. Source: PNG
  // specification (W3C, third edition), section 11.2.5.
  constexpr std::streamoff kNameFromEnd = 8;
  std::ifstream file(path, std::ios::binary);
  file.seekg(0, std::ios::end);
  if (!file || file.tellg() < kNameFromEnd) return false;
  file.seekg(-kNameFromEnd, std::ios::end);
  std::string name(4, ' ');
  file.read(name.data(), 4);
  return file.good() && name == "IEND";
}

}  // namespace sixty::gui
