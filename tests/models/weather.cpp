#include "tests/models/weather.hpp"

namespace sixty {
namespace {

class Weather final : public Part {
 public:
  explicit Weather(Builder& b) : air_(b.offered<Surroundings>("air")) {}
  void start(Ctx& ctx) const override { ctx.state(air_) = Surroundings{}; }
  void on_event(const Event& event, Ctx& ctx) const override {
    Surroundings& air = ctx.state(air_);
    (event.kind == kCommandBase ? air.temperature_k : air.mains_v) = event.value;
    ctx.link_changed(0);
  }

 private:
  StateSlot<Surroundings> air_;
};

class WeatherType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "weather of a test";
    d.help = "Surroundings that a test sets.";
    d.offers<Surroundings>("air", "what a test sets");
    d.command("temperature", "sets it", quantity_field("temperature", "K", 200, 350, "of the air"));
    d.command("mains", "sets it", quantity_field("mains", "V", 0, 300, "of the mains"));
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Weather>(b);
  }
};

}  // namespace

const PartType& weather_part() {
  static const WeatherType type;
  return type;
}

}  // namespace sixty
