#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::gui {

/// Pictures of a film: so many to each second of the wall.
constexpr int kFilmRate = 25;
constexpr std::size_t kMostFrames = 100'000;

/// When each of them is taken, the first at `from`, none behind `to`. `speed`: seconds of the scene
/// to one of the wall; range: > 0. Stops at one more than kMostFrames.
std::vector<SimTime> film_times(SimTime from, SimTime to, double speed);
/// The same with time slowing by itself round what happens. The session stands where it stood.
std::vector<SimTime> stretched_film_times(Session& session, SimTime from, SimTime to);

/// What begins in a film, for those who watch it.
struct FilmDeed {
  SimTime at = 0;
  std::string text;
};
std::vector<FilmDeed> film_deeds(Session& session, SimTime from, SimTime to);
/// What is told with a picture: the latest that began within the last two seconds of the wall.
std::string film_caption(const std::vector<FilmDeed>& deeds, const std::vector<SimTime>& times,
                         std::size_t frame, const std::function<bool(const std::string&)>& fits);

/// "frame-000001.png", counted from 1.
std::string frame_name(std::size_t frame);
/// Makes the folder, and takes an earlier film's pictures out of it. Errors: what is wrong, with
/// how to mend it; so it is where the folder holds anything else.
std::string prepare_film_folder(const std::string& folder);
/// After the name of a picture while it is being written.
constexpr const char* kPartOfPicture = ".part.png";
/// Whether a PNG file has been written to its end.
bool is_whole_png(const std::string& path);

}  // namespace sixty::gui
