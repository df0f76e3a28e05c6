#pragma once

#include <string>
#include <vector>

#include "sim/instruments/measure.hpp"

namespace sixty::cli {

/// What was measured, when, and what the instruments said.
struct Measurement {
  const Installation& scene;
  std::vector<instruments::Order> orders;
  instruments::Window window;
  std::vector<instruments::Answer> answers;  ///< one to each order
};

/// `truth`: tell too what really stood at a meter's tips.
std::string answers_text(const Measurement& measurement, bool truth);
std::string answers_json(const Measurement& measurement);

/// A picture of a channel in plain characters: the highest and lowest of each column.
std::string channel_picture(const instruments::Channel& channel, SimTime from, SimTime to);

}  // namespace sixty::cli
