#include "gui/exhibit/playing.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "sim/tour/saying.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

Opening opening_of(const exhibit::Opened& opened) {
  Opening opening;
  opening.installation = opened.installation;
  return opening;
}

std::vector<LaneOf> lanes_of(const exhibit::Opened& opened) {
  std::vector<LaneOf> lanes;
  for (const ReadingOf& reading : opened.exhibit->readings)
    lanes.push_back(lane_of(*opened.installation, reading));
  return lanes;
}

}  // namespace

Playing::Playing(exhibit::Opened opened) : opened_(std::move(opened)), bench_(opening_of(opened_)) {
  bench_.runner().set_lanes(lanes_of(opened_));
  bench_.runner().write_captions(true);
  rehearsal_ = std::async(std::launch::async, [this] {
    Known known;
    Session session(opened_.installation);
    for (const exhibit::Take* take : exhibit::takes_of(*opened_.exhibit))
      if (!ends_) known[take] = exhibit::rehearse(*take, session);
    return known;
  });
}

Playing::~Playing() { ends_ = true; }

void Playing::begin(const exhibit::Take& take) {
  Runner& runner = bench_.runner();
  bench_.select(std::nullopt);
  if (take.part) runner.watch(*take.part);  // it is drawn as seen from close by
  begun_ = runner.begin(take.log, take.at);
  runner.set_speed(take.speed);
  runner.set_stretch(take.stretch);
  runner.set_running(true);
  stopped_ = false;
}

bool Playing::follow(const exhibit::Take& take) {
  bench_.take();
  if (!is_begun()) return false;
  if (!bench_.seen().failure.empty()) return true;  // nothing more will come
  if (!stopped_ && bench_.picture().at >= take.to) {
    stopped_ = true;
    bench_.runner().set_running(false);
    bench_.runner().jump(take.to);  // so that the same is shown and told each time
  }
  return stopped_;
}

void Playing::rest() { bench_.runner().set_running(false); }

bool Playing::is_rehearsed() {
  if (known_) return true;
  if (rehearsal_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
  known_ = rehearsal_.get();
  return true;
}

std::string Playing::words(const Sayings& sayings, const exhibit::Take& take) {
  const Saying& saying = in_language(sayings, spoken().code);
  const bool counts = std::any_of(saying.pieces.begin(), saying.pieces.end(),
                                  [](const Saying::Piece& piece) { return piece.number; });
  if (counts && !is_rehearsed()) return "";
  const auto value = [&](const ReadingOf& reading) {
    const auto& readings = opened_.exhibit->readings;
    const auto k = static_cast<std::size_t>(std::find(readings.begin(), readings.end(), reading) -
                                            readings.begin());
    const std::vector<double>& values = bench_.picture().lanes;
    return k < values.size() ? values[k] : 0.0;
  };
  static const std::vector<std::pair<double, std::string>> kNoNumbers;
  return said(saying, *opened_.installation, value, counts ? (*known_)[&take].numbers : kNoNumbers,
              spoken().code);
}

std::vector<std::string> Playing::flaws() {
  std::vector<std::string> flaws;
  if (!is_rehearsed()) return flaws;
  for (const exhibit::Take* take : exhibit::takes_of(*opened_.exhibit))
    if (const std::string& flaw = (*known_)[take].flaw; !flaw.empty())
      flaws.push_back(take->name + ": " + flaw);
  return flaws;
}

}  // namespace sixty::gui
