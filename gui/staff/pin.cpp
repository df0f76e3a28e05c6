#include "gui/staff/pin.hpp"

#include <fmt/format.h>
#include <sodium.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <sstream>

#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

constexpr int kMostWrong = 1000;      // further ones change nothing
constexpr std::int64_t kDrift = 300;  // s; a clock that comes back so nearly has come back
constexpr std::int64_t kFarthest = 1'000'000'000'000;  // s; no clock shows more

bool has_library() {
  static const bool has = sodium_init() >= 0;
  return has;
}

/// Digits typed at a terminal are not shown until this goes.
class Unseen {
 public:
  explicit Unseen(bool wanted) : hides_(wanted && ::tcgetattr(STDIN_FILENO, &before_) == 0) {
    if (!hides_) return;
    termios unseen = before_;
    unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &unseen);
  }
  Unseen(const Unseen&) = delete;
  Unseen& operator=(const Unseen&) = delete;
  ~Unseen() {
    if (hides_) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
  }

 private:
  termios before_ = {};
  bool hides_;
};

std::string asked_pin(std::istream& in, std::ostream& out, const std::string& question) {
  out << question << std::flush;
  std::string line;
  std::getline(in, line);
  return trimmed(line);
}

}  // namespace

std::string pin_mistake(const std::string& pin) {
  if (!std::all_of(pin.begin(), pin.end(), is_digit)) return "A PIN has digits only.";
  if (pin.size() >= kLeastPin && pin.size() <= kMostPin) return "";
  return fmt::format("A PIN has {} to {} digits; this one has {}.", kLeastPin, kMostPin,
                     pin.size());
}

std::string hashed_pin(const std::string& pin) {
  if (!pin_mistake(pin).empty() || !has_library()) return "";
  std::array<char, crypto_pwhash_STRBYTES> hash = {};
  if (crypto_pwhash_str(hash.data(), pin.data(), pin.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                        crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0)
    return "";
  return hash.data();
}

bool is_pin_hash(const std::string& hash) {
  if (hash.size() >= crypto_pwhash_STRBYTES || !hash.starts_with(crypto_pwhash_STRPREFIX))
    return false;
  return has_library() &&
         crypto_pwhash_str_needs_rehash(hash.c_str(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                                        crypto_pwhash_MEMLIMIT_INTERACTIVE) != -1;
}

bool is_pin(const std::string& hash, const std::string& pin) {
  if (!pin_mistake(pin).empty() || !is_pin_hash(hash)) return false;
  return crypto_pwhash_str_verify(hash.c_str(), pin.data(), pin.size()) == 0;
}

std::int64_t PinGate::whole_wait() const {
  if (wrong_ < kFreeTries) return 0;
  std::int64_t wait = kFirstWait;
  for (int i = kFreeTries; i < wrong_ && wait < kLongestWait; ++i) wait *= 2;
  return std::min(wait, kLongestWait);
}

void PinGate::let_pass(std::int64_t now) {
  now = std::clamp(now, -kFarthest, kFarthest);
  std::int64_t passed = has_seen_ ? now - seen_ : 0;
  seen_ = now;
  has_seen_ = true;
  if (passed < 0) {
    behind_ = std::min(behind_ - passed, 2 * kFarthest);
    return;
  }
  if (behind_ > 0 && passed >= behind_ - kDrift) {
    passed = std::max<std::int64_t>(0, passed - behind_);
    behind_ = 0;
  }
  waited_ = std::min(waited_ + passed, kLongestWait);
}

std::int64_t PinGate::wait_left(std::int64_t now) {
  let_pass(now);
  return std::max<std::int64_t>(0, whole_wait() - waited_);
}

void PinGate::count_wrong() {
  wrong_ = std::min(wrong_ + 1, kMostWrong);
  waited_ = 0;
}

PinTry PinGate::try_pin(const std::string& hash, const std::string& pin, std::int64_t now) {
  if (wait_left(now) > 0) return PinTry::kWaits;
  if (is_pin(hash, pin)) {
    wrong_ = 0;
    return PinTry::kRight;
  }
  count_wrong();
  return PinTry::kWrong;
}

std::string PinGate::line() const {
  return fmt::format("pin-gate 1 {} {} {} {}", wrong_, waited_,
                     has_seen_ ? std::to_string(seen_) : "-", behind_);
}

PinGate PinGate::from_line(const std::string& line) {
  PinGate gate;
  if (trimmed(line).empty()) return gate;
  std::istringstream words(line);
  std::string name, version, seen, more;
  words >> name >> version >> gate.wrong_ >> gate.waited_ >> seen >> gate.behind_;
  gate.has_seen_ = seen != "-";
  bool is_well = words && name == "pin-gate" && version == "1" && !(words >> more);
  if (gate.has_seen_) {
    std::istringstream number(seen);
    is_well = is_well && number >> gate.seen_ && number.eof();
  }
  const auto is_in = [](std::int64_t value, std::int64_t most) {
    return value >= 0 && value <= most;
  };
  if (is_well && is_in(gate.wrong_, kMostWrong) && is_in(gate.waited_, kLongestWait) &&
      is_in(gate.behind_, 2 * kFarthest) &&
      gate.seen_ == std::clamp(gate.seen_, -kFarthest, kFarthest))
    return gate;
  gate = {};
  gate.wrong_ = kFreeTries;
  return gate;
}

int make_pin(std::istream& in, std::ostream& out) {
  const bool is_terminal = &in == &std::cin && ::isatty(STDIN_FILENO) == 1;
  const Unseen unseen(is_terminal);
  const char* next = is_terminal ? "\n" : "";  // what the terminal does not show
  const std::string pin = asked_pin(in, out, "New staff PIN (4 to 12 digits): ");
  out << next;
  const std::string mistake = pin_mistake(pin);
  if (!mistake.empty()) {
    out << "\n" << mistake << " Nothing was made; start again.\n";
    return 1;
  }
  const std::string again = asked_pin(in, out, "The same again: ");
  out << next;
  if (again != pin) {
    out << "\nThe two differ. Nothing was made; start again.\n";
    return 1;
  }
  const std::string hash = hashed_pin(pin);
  if (hash.empty()) {
    out << "\nThe 64 MB of memory that this takes are not to be had. Close something, and start "
           "again.\n";
    return 1;
  }
  out << "\nPut this line into the exhibit's file, in place of the one that begins with staff:\n"
      << "staff: {pin: " << in_quotes(hash) << "}\n";
  return 0;
}

}  // namespace sixty::gui
