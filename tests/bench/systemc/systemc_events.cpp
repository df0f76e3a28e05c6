#include "tests/bench/systemc/systemc_events.hpp"

#include <systemc>
#include <vector>

namespace sixty {
namespace {

using sc_core::SC_MS;
using sc_core::SC_NS;
using sc_core::SC_SEC;
using sc_core::sc_time;

constexpr int kSecondaries = 40;

/// One clock on the line: steps once, a while after the second contact.
class Secondary : public sc_core::sc_module {
 public:
  SC_HAS_PROCESS(Secondary);
  Secondary(const sc_core::sc_module_name& name, std::uint64_t& events, const sc_time& delay)
      : sc_module(name), events_(events), delay_(delay) {
    SC_METHOD(step);
    sensitive << driven_;
    dont_initialize();
  }

  void drive() { driven_.notify(delay_); }

 private:
  void step() { ++events_; }

  std::uint64_t& events_;
  sc_time delay_;
  sc_core::sc_event driven_;
};

}  // namespace

class SystemcEvents::Installation : public sc_core::sc_module {
 public:
  SC_HAS_PROCESS(Installation);
  explicit Installation(const sc_core::sc_module_name& name) : sc_module(name) {
    SC_METHOD(tick);
    runs_on(ticks_);
    SC_METHOD(make_first);
    runs_on(first_makes_);
    SC_METHOD(make_second);
    runs_on(second_makes_);
    SC_METHOD(count);
    runs_on(breaks_);
    SC_METHOD(wind);
    runs_on(winds_);
    SC_METHOD(move_tape);
    runs_on(tape_moves_);
    SC_METHOD(strike);
    runs_on(strikes_);
    for (int k = 0; k < kSecondaries; ++k) {
      secondaries_.push_back(std::make_unique<Secondary>(sc_core::sc_gen_unique_name("secondary"),
                                                         events_, sc_time(20 + k, SC_MS)));
    }
    ticks_.notify(second_);
  }

  std::uint64_t events() const { return events_; }

 private:
  void runs_on(const sc_core::sc_event& event) {
    sensitive << event;
    dont_initialize();
  }

  void tick() {
    ++events_;
    ticks_.notify(second_);
    const std::int64_t second = number_ % 60;
    if (second == 5) first_makes_.notify(sc_core::SC_ZERO_TIME);
    if (second == 35) second_makes_.notify(sc_core::SC_ZERO_TIME);
    if (second == 7 || second == 37) breaks_.notify(sc_core::SC_ZERO_TIME);
    if (number_ % 10800 == 15) {
      strokes_left_ = 50;
      strikes_.notify(sc_core::SC_ZERO_TIME);
    }
    ++number_;
  }

  void make_first() {
    ++events_;
    winds_.notify(wind_delay_);
    tape_moves_.notify(tape_delay_);
  }

  void make_second() {
    ++events_;
    for (const std::unique_ptr<Secondary>& secondary : secondaries_) secondary->drive();
  }

  void strike() {
    ++events_;
    if (--strokes_left_ > 0) strikes_.notify(stroke_period_);
  }

  void count() { ++events_; }
  void wind() { ++events_; }
  void move_tape() { ++events_; }

  const sc_time second_{1, SC_SEC}, stroke_period_{100, SC_MS};
  const sc_time wind_delay_{72, SC_MS}, tape_delay_{70, SC_MS};
  sc_core::sc_event ticks_, first_makes_, second_makes_, breaks_, winds_, tape_moves_, strikes_;
  std::vector<std::unique_ptr<Secondary>> secondaries_;
  std::uint64_t events_ = 0;
  std::int64_t number_ = 0, strokes_left_ = 0;
};

SystemcEvents::SystemcEvents() {
  sc_core::sc_set_time_resolution(1, SC_NS);  // as fine as ours, and room for centuries
  installation_ = std::make_unique<Installation>("installation");
}

SystemcEvents::~SystemcEvents() = default;

std::uint64_t SystemcEvents::run_for(double seconds) {
  const std::uint64_t before = installation_->events();
  sc_core::sc_start(sc_time(seconds, SC_SEC));
  return installation_->events() - before;
}

}  // namespace sixty
