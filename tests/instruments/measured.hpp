#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/instruments/measure.hpp"

namespace sixty {

/// A scene file of the project, by its path within it. Errors: fails the test, nullptr.
std::shared_ptr<const Installation> scene_at(const std::string& path,
                                             const std::vector<std::string>& hands = {},
                                             const std::vector<std::string>& set = {});

/// A scene written in a test. Errors: fails the test, nullptr.
std::shared_ptr<const Installation> scene_of(const std::string& yaml);

/// What instruments say. Times in s. Errors: fails the test.
std::vector<instruments::Answer> measured(const std::shared_ptr<const Installation>& scene,
                                          const std::vector<std::string>& orders, double from_s,
                                          double to_s, double every_s = 1e-3);

/// All mistakes in orders, one text.
std::string mistakes_in(const std::shared_ptr<const Installation>& scene,
                        const std::vector<std::string>& orders);

inline const instruments::MeterReading& meter(const instruments::Answer& answer) {
  return std::get<instruments::MeterReading>(answer);
}

}  // namespace sixty
