#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/math.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/part/links.hpp"
#include "sim/part/part.hpp"
#include "sim/part/record.hpp"

namespace sixty::models {
namespace {

// The model's grid: what surrounds the installation changes by such steps, and at such times.
constexpr double kGridK = 1;
constexpr double kGridHumidity = 0.05;
constexpr double kGridExposure_s = 30 * 86400.0;
constexpr double kGridPa = 100;
constexpr double kGridV = 1;
constexpr SimTime kQuarter = 15 * kMinute;
constexpr double kQuartersOfDay = 96;

constexpr std::int64_t kWeatherQuarters = 24;  // the air over the place changes every six hours
constexpr double kWeatherKept = 0.9;           // of its deviation from the mean, each time
constexpr double kDaysOfYear = 365.25;
constexpr std::uint32_t kWeatherStream = 0, kKnockStream = 1;

// A film grows twice as fast where it is ten kelvins warmer, and in proportion to the humidity
// (from memory: the chemist's rule of thumb; common practice, no source).
constexpr double kFilmReferenceK = 293.15, kFilmDoublesEachK = 10, kFilmReferenceHumidity = 0.5;

enum Own : std::uint16_t { kQuarterBegins = 1, kMainsReturn, kAges, kKnock };
enum Command : std::uint16_t { kFail, kSetMains, kSetTemperature, kKnockNow };
enum Reading : std::size_t { kTemperature, kHumidity, kPressure, kMains, kExposure, kKnocks };

/// Hours of the day, in a part of the year, in which the mains have volts of their own.
struct MainsHours {
  std::int64_t from_minute = 0,
               to_minute = 0;                  ///< of the day; over midnight if the wrong way round
  std::int64_t first_day = 1, last_day = 366;  ///< of the year; over New Year likewise
  double volts = 0;
};

/// `x` lies in [from, to), or outside [to, from) where the two are the wrong way round.
bool within(std::int64_t x, std::int64_t from, std::int64_t to) {
  return from <= to ? from <= x && x < to : x >= from || x < to;
}

std::int64_t quarter_of(Builder& b, const Value& time) {
  std::string error;
  const std::optional<int> minute = parse_minute_of_day(time.text, error);
  if (!minute) b.refuse("mains_by_hour", time, error, "from: \"17:00\"");
  if (minute && *minute % 15 != 0) {
    b.refuse("mains_by_hour", time, "the mains change on the quarter of an hour only",
             "give :00, :15, :30 or :45");
  }
  return minute.value_or(0);
}

std::vector<MainsHours> mains_hours(Builder& b) {
  std::vector<MainsHours> all;
  for (const Value::Record& record : b.value("mains_by_hour").records) {
    MainsHours hours;
    hours.from_minute = quarter_of(b, field_of(record, "from"));
    hours.to_minute = quarter_of(b, field_of(record, "to"));
    const auto day = [&](const char* name, std::int64_t otherwise) {
      const double given = field_of(record, name).number;
      return given > 0 ? static_cast<std::int64_t>(given) : otherwise;
    };
    hours.first_day = day("first_day", hours.first_day);
    hours.last_day = day("last_day", hours.last_day);
    hours.volts = field_of(record, "volts").number;
    all.push_back(hours);
  }
  return all;
}

/// Pressure of water vapour that air of this temperature can hold, over water. Units: K, hPa.
/// Source: Magnus' formula as in WMO-No. 8, Guide to Instruments and Methods of Observation
/// (published, from memory).
double saturation_hpa(double temperature_k) {
  const double celsius = temperature_k - 273.15;
  return 6.112 * det_exp(17.62 * celsius / (243.12 + celsius));
}

double on_grid(double value, double step) { return std::floor(value / step + 0.5) * step; }

struct ClimateState {
  double warmer_k = 0;   ///< than the scene has it, by hand
  double more_v = 0;     ///< likewise, outside the hours that have their own
  double deviation = 0;  ///< of the pressure, in its spread
  std::uint64_t draws = 0;
  std::int64_t failures = 0;  ///< under way
  SimTime aged_at = 0;        ///< when exposure_s held
  double exposure_s = 0;      ///< what the link tells in whole steps
  std::uint64_t knock_draws = 0;
  EventHandle next;
  EventHandle ages;
  EventHandle back;
};

class Climate final : public Part {
 public:
  explicit Climate(Builder& b)
      : mean_k_(b.number("temperature")),
        seasonal_k_(b.number("seasonal_swing")),
        warmest_day_(b.number("warmest_day")),
        daily_k_(b.number("daily_swing")),
        warmest_hour_s_(b.number("warmest_hour")),
        pressure_pa_(b.number("pressure")),
        pressure_spread_pa_(b.number("pressure_spread")),
        mains_v_(b.number("mains")),
        mains_left_(b.number("mains_left")),
        humidity_(b.number("humidity")),
        seasonal_humidity_(b.number("seasonal_humidity")),
        knocks_a_day_(b.number("knocks_a_day")),
        knock_m_per_s_(b.number("knock_speed")),
        hours_(mains_hours(b)),
        state_(b.state<ClimateState>()),
        air_(b.offered<Surroundings>("air")) {}

  void start(Ctx& ctx) const override {
    ClimateState& s = ctx.state(state_);
    s = ClimateState{};
    if (pressure_spread_pa_ > 0) s.deviation = normal(ctx, s);
    ctx.state(air_) = now(ctx.reader(), s, Surroundings{});
    ctx.link_changed(0);
    wait_for_next(ctx, s);
    wait_to_age(ctx, s);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    ClimateState& s = ctx.state(state_);
    age(ctx, s);
    switch (event.kind) {
      case kQuarterBegins:
        change_weather(ctx, s);
        draw_knock(ctx, s);
        wait_for_next(ctx, s);
        break;
      case kMainsReturn:
        s.failures = 0;
        break;
      case kCommandBase + kFail:
        ctx.cancel(s.back);
        s.failures = 1;
        s.back = ctx.schedule(ctx.now() + from_seconds(event.value), kMainsReturn, Phase::kCommand);
        break;
      case kCommandBase + kSetMains:
        s.more_v = event.value - mains_v_;
        break;
      case kCommandBase + kSetTemperature:
        s.warmer_k = event.value - mean_k_;
        break;
      case kKnock:
      case kCommandBase + kKnockNow:
        knock(event.value, ctx);
        break;
      default:  // it has only grown older
        break;
    }
    tell(ctx, s);
    wait_to_age(ctx, s);
  }

  void on_rebuilt(Ctx& ctx) const override {
    ClimateState& s = ctx.state(state_);
    age(ctx, s);
    tell(ctx, s);
    wait_to_age(ctx, s);
  }

  double read(std::size_t reading, const Reader& r) const override {
    const Surroundings& air = r.state(air_);
    switch (reading) {
      case kTemperature:
        return air.temperature_k;
      case kHumidity:
        return air.humidity;
      case kPressure:
        return air.pressure_pa;
      case kMains:
        return air.mains_v;
      case kExposure:
        return air.exposure_s;
      default:
        return static_cast<double>(air.knocks);
    }
  }

  // A knock at the wall. Pitch and loudness: from memory.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kThump, kKnock, 60, 0.4, 0.9}};
  }

 private:
  /// Nothing happens by the clock where nothing depends on it.
  bool changes() const {
    return seasonal_k_ > 0 || daily_k_ > 0 || seasonal_humidity_ != 0 || pressure_spread_pa_ > 0 ||
           knocks_a_day_ > 0 || !hours_.empty();
  }

  void wait_for_next(Ctx& ctx, ClimateState& s) const {
    if (!changes()) return;
    const SimTime since_monday = ctx.reader().week_offset() + ctx.now();
    const SimTime wait = kQuarter - since_monday % kQuarter;
    s.next = ctx.schedule(ctx.now() + wait, kQuarterBegins, Phase::kCommand);
  }

  static double normal(Ctx& ctx, ClimateState& s) {
    return normal_quantile((1 + 998 * ctx.draw(kWeatherStream, s.draws++)) / 1000);
  }

  void change_weather(Ctx& ctx, ClimateState& s) const {
    if (pressure_spread_pa_ == 0) return;
    const SimTime since_monday = ctx.reader().week_offset() + ctx.now();
    if (since_monday / kQuarter % kWeatherQuarters != 0) return;
    const double fresh = std::sqrt(1 - kWeatherKept * kWeatherKept);
    s.deviation = kWeatherKept * s.deviation + fresh * normal(ctx, s);
  }

  // At most one knock in each quarter of an hour, at any moment of it, either way along the swing.
  void draw_knock(Ctx& ctx, ClimateState& s) const {
    if (knocks_a_day_ == 0) return;
    const double whether = ctx.draw(kKnockStream, s.knock_draws++);
    const double when = ctx.draw(kKnockStream, s.knock_draws++);
    const double strength = ctx.draw(kKnockStream, s.knock_draws++);
    if (whether * kQuartersOfDay >= knocks_a_day_) return;
    const auto wait = static_cast<SimTime>(when * static_cast<double>(kQuarter));
    ctx.schedule(ctx.now() + wait, kKnock, Phase::kCommand, 0, (2 * strength - 1) * knock_m_per_s_);
  }

  void knock(double speed_m_per_s, Ctx& ctx) const {
    Surroundings& air = ctx.state(air_);
    ++air.knocks;
    air.knock_m_per_s = speed_m_per_s;
    ctx.link_changed(0);
  }

  static double aging(const Surroundings& air) {
    const double warmer_k = air.temperature_k - kFilmReferenceK;
    return det_pow(2, warmer_k / kFilmDoublesEachK) * air.humidity / kFilmReferenceHumidity;
  }

  /// What has gone by since it was last reckoned, in the air that there was.
  void age(Ctx& ctx, ClimateState& s) const {
    s.exposure_s += to_seconds(ctx.now() - s.aged_at) * aging(ctx.state(air_));
    s.aged_at = ctx.now();
  }

  /// Until the link's next step of exposure.
  void wait_to_age(Ctx& ctx, ClimateState& s) const {
    ctx.cancel(s.ages);
    const double left_s = ctx.state(air_).exposure_s + kGridExposure_s - s.exposure_s;
    const SimTime wait = from_seconds(left_s / aging(ctx.state(air_))) + 1;
    s.ages = ctx.schedule(ctx.now() + std::max<SimTime>(wait, 1), kAges, Phase::kCommand);
  }

  Surroundings now(const Reader& r, const ClimateState& s, const Surroundings& before) const {
    const double days = to_seconds(r.year_offset() + r.now()) / 86400;
    const double season = 2 * kPi * (days - (warmest_day_ - 0.5)) / kDaysOfYear;
    const SimTime of_day = (r.week_offset() + r.now()) % kDay;
    const SimTime on_the_wall = r.since_monday() % kDay;
    const double hour = 2 * kPi * (to_seconds(of_day) - warmest_hour_s_) / 86400;
    const double of_season = det_cos(season);
    const double of_hour_k = daily_k_ * det_cos(hour);
    const double day_k = mean_k_ + s.warmer_k + seasonal_k_ * of_season;
    Surroundings air = before;
    air.temperature_k = kZeroCelsius_k + on_grid(day_k + of_hour_k - kZeroCelsius_k, kGridK);
    // Through the day the vapour stays, and the air can hold more of it as it becomes warmer.
    const double humidity = (humidity_ + seasonal_humidity_ * of_season) * saturation_hpa(day_k) /
                            saturation_hpa(day_k + of_hour_k);
    air.humidity = on_grid(std::clamp(humidity, kGridHumidity, 1.0), kGridHumidity);
    air.exposure_s = std::floor(s.exposure_s / kGridExposure_s) * kGridExposure_s;
    air.pressure_pa = on_grid(pressure_pa_ + pressure_spread_pa_ * s.deviation, kGridPa);
    air.mains_v = s.failures != 0 ? 0 : on_grid(mains_at(s, days, on_the_wall / kMinute), kGridV);
    return air;
  }

  /// The last hours of the list that hold count.
  double mains_at(const ClimateState& s, double days, std::int64_t minute) const {
    const auto day = static_cast<std::int64_t>(std::fmod(days, kDaysOfYear)) + 1;
    double volts = mains_v_ + s.more_v;
    for (const MainsHours& h : hours_) {
      if (within(minute, h.from_minute, h.to_minute) && within(day, h.first_day, h.last_day + 1)) {
        volts = h.volts;
      }
    }
    return volts * mains_left_;
  }

  void tell(Ctx& ctx, const ClimateState& s) const {
    Surroundings& air = ctx.state(air_);
    const Surroundings fresh = now(ctx.reader(), s, air);
    if (fresh == air) return;
    air = fresh;
    ctx.link_changed(0);
  }

  static constexpr double kZeroCelsius_k = 273.15;

  double mean_k_, seasonal_k_, warmest_day_, daily_k_, warmest_hour_s_;
  double pressure_pa_, pressure_spread_pa_;
  double mains_v_, mains_left_;
  double humidity_, seasonal_humidity_;
  double knocks_a_day_, knock_m_per_s_;
  std::vector<MainsHours> hours_;
  StateSlot<ClimateState> state_;
  StateSlot<Surroundings> air_;
};

class ClimateType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "what surrounds the installation";
    d.help =
        "Temperature and humidity by season and hour, passing weather, the mains with their "
        "failures, and knocks at the wall.";
    d.quantity("temperature", "K", 293.15, 233.15, 323.15, "mean of the year");
    d.quantity("seasonal_swing", "K", 0, 0, 30,
               "by how much the warmest day's mean is above the year's");
    d.count("warmest_day", 200, 1, 366, "warmest day of the year, counted from 1 January");
    d.quantity("daily_swing", "K", 0, 0, 20,
               "by how much the warmest hour is above the day's mean");
    d.quantity("warmest_hour", "s", 54000, 0, 86400, "time of day at which it is warmest");
    d.quantity("humidity", "1", 0.5, 0.05, 1, "relative humidity, mean of the year");
    d.quantity(
        "seasonal_humidity", "1", 0, -0.5, 0.5,
        "by how much it is above the year's mean on the warmest day; heated rooms: positive");
    d.quantity("pressure", "Pa", 101325, 80000, 110000, "mean pressure of the air",
               "standard atmosphere, exact by definition");
    d.quantity("pressure_spread", "Pa", 0, 0, 5000,
               "standard deviation of the pressure as weather passes");
    d.quantity("mains", "V", 230, 0, 500, "rms voltage of the mains");
    d.quantity("mains_left", "1", 1, 0, 1.5,
               "share of them that comes this far, in hours with volts of their own too");
    d.quantity("knocks_a_day", "1", 0, 0, 96, "knocks at the wall, on an average day");
    d.quantity("knock_speed", "m/s", 0.001, 0, 0.1,
               "most that a knock gives the wall; each draws its share, either way");
    d.records("mains_by_hour",
              {text_field("from", "time of day, \"17:00\""), text_field("to", "time of day"),
               quantity_field("volts", "V", 0, 500, "rms voltage in these hours"),
               count_field("first_day", 1, 366, "of the year; all year if not given", false),
               count_field("last_day", 1, 366, "of the year", false)},
              "hours in which the mains have other volts");
    d.command("fail", "the mains fail for so long",
              quantity_field("for", "s", 1e-3, 30 * 86400.0, "how long"));
    d.command("set_mains", "sets the mains outside the hours that have volts of their own",
              quantity_field("volts", "V", 0, 500, "rms"))
        .sets = "mains";
    d.command("set_temperature", "sets the mean of the year, as when the heating is turned on",
              quantity_field("temperature", "K", 233.15, 323.15, "mean of the year"))
        .sets = "temperature";
    d.command("knock", "knocks at the wall that carries the pendulum",
              quantity_field("speed", "m/s", -0.1, 0.1, "that it gives the wall, along the swing"));
    d.offers<Surroundings>("air", "air and mains, for what depends on them");
    d.reading("temperature", "K", "of the air");
    d.reading("humidity", "1", "relative, of the air").told = Told::kShare;
    d.reading("pressure", "Pa", "of the air");
    d.reading("mains", "V", "rms of the mains, 0 while they fail");
    d.reading("exposure", "s", "how long films have grown, as if at 20 degC and 50 % humidity");
    d.reading("knocks", "1", "knocks at the wall so far");
    d.event(kAges, "ages", "contacts have been in the air for another month");
    d.motion(kKnock, "knocks", "something knocks at the wall");
    d.event(kQuarterBegins, "quarter", "a quarter of an hour begins");
    d.event(kMainsReturn, "returns", "the mains return");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Climate>(b);
  }
};

}  // namespace

const PartType& climate_part() {
  static const ClimateType type;
  return type;
}

}  // namespace sixty::models
