#pragma once

#include <cstdint>
#include <initializer_list>
#include <string_view>

namespace sixty::instruments {

/// Uncertainty with k = 2 of what is off by several errors, each anywhere within +-one of these
/// limits. Source: JCGM 100:2008 (GUM) 4.3.7, 5.1.2 and 6.2.1.
double expanded_uncertainty(std::initializer_list<double> limits);

/// An instrument's own error, as a share of its limit, -1 to 1: the same one always has the same.
double own_error(std::uint64_t seed, std::string_view instrument, std::uint32_t stream = 0,
                 std::uint64_t number = 0);

/// The nearest value that can be read. Range: step > 0.
double to_step(double value, double step);

}  // namespace sixty::instruments
