#pragma once

#include <cstddef>
#include <cstdint>
#include <iosfwd>
#include <string>

namespace sixty::gui {

constexpr std::size_t kLeastPin = 4, kMostPin = 12;  ///< digits

/// Why this cannot be a PIN, in one sentence; empty if it can: digits only, 4 to 12 of them.
std::string pin_mistake(const std::string& pin);

/// What a file may keep of a PIN: its Argon2id hash with a salt of its own, as libsodium writes it.
/// It needs 64 MB of memory and some 0.1 to 0.5 s, so never between two frames.
/// Errors: an empty text, if this can be no PIN or the memory is not to be had.
std::string hashed_pin(const std::string& pin);

/// Whether the text is such a hash, so that a file can be checked without anybody's PIN.
bool is_pin_hash(const std::string& hash);

/// Whether the hash is that of this PIN; takes as long as hashed_pin().
/// Errors: false; so where the hash is none.
bool is_pin(const std::string& hash, const std::string& pin);

/// What became of a try.
enum class PinTry { kRight, kWrong, kWaits };

/// Slows down whoever tries PINs: five tries are free, then each wrong one is followed by a wait,
/// 30 s the first time, twice as long each time after, up to an hour. A right one ends all that.
/// While it waits a right PIN is refused too. Time that a clock is set back by does not count, nor
/// does its return; so a clock set back lengthens a wait at most by how far it went back, and never
/// by more than what has gone by since.
/// Order: one thread at a time; `now` in unix seconds, from whatever clock.
class PinGate {
 public:
  static constexpr int kFreeTries = 5;
  static constexpr std::int64_t kFirstWait = 30, kLongestWait = 3600;  ///< s

  /// Units: s. Range: 0 (a try is free) to kLongestWait.
  std::int64_t wait_left(std::int64_t now);

  /// Looks at the PIN unless there is a wait, and counts the try. It takes as long as is_pin().
  PinTry try_pin(const std::string& hash, const std::string& pin, std::int64_t now);

  /// The state as one line of text without its end, to be kept after each try.
  std::string line() const;
  /// The gate that a line tells of. An empty line: one that nobody has tried yet. Errors: where the
  /// line is damaged, a gate whose free tries are used up, at the beginning of its first wait.
  static PinGate from_line(const std::string& line);

  bool operator==(const PinGate&) const = default;

 private:
  void let_pass(std::int64_t now);
  std::int64_t whole_wait() const;
  void count_wrong();

  int wrong_ = 0;            // tries since the last right one
  std::int64_t waited_ = 0;  // s of the wait under way that are over
  std::int64_t seen_ = 0;    // the clock when it was last looked at
  std::int64_t behind_ = 0;  // s by which it was set back and has not come forward again
  bool has_seen_ = false;
};

/// Asks for a PIN twice and prints the line for an exhibit's file: staff: {pin: "$argon2id$..."}.
/// Where `in` is std::cin at a terminal, the digits are not shown.
/// Errors: 1 with a sentence in `out`, if they differ or can be no PIN, or nothing more comes.
int make_pin(std::istream& in, std::ostream& out);

}  // namespace sixty::gui
