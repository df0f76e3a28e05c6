#pragma once

#include <array>
#include <cstdint>

namespace sixty {

/// Random numbers by counter: a draw is a pure function of (seed, who, stream, number), so adding
/// or removing one part never shifts another's draws. Source: Philox4x32-10, J. K. Salmon et al.,
/// "Parallel random numbers: as easy as 1, 2, 3", SC11 (2011).
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter,
                                    std::array<std::uint32_t, 2> key);

/// One draw, uniform in [0, 1). `who` is the hash of a part's path, `stream` one use of chance in
/// that part, `number` how many draws that stream has had.
double uniform_draw(std::uint64_t seed, std::uint64_t who, std::uint32_t stream,
                    std::uint64_t number);

}  // namespace sixty
