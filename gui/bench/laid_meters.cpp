#include "gui/bench/laid_meters.hpp"

#include <algorithm>

#include "gui/strip/recording.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using instruments::Order;

std::optional<Order> order_of(const std::string& text, const Installation& installation,
                              std::string& mistake) {
  Diagnostics told;
  Mistakes mistakes(told);
  const std::optional<Order> order = instruments::read_order(text, installation, mistakes);
  if (!order) mistake = told.to_text();
  return order;
}

bool has_leads(const Order& order) {
  return order.is_electrical() || order.kind == Order::Kind::kOhms;
}

/// The word that a terminal shares with its like, behind a space: " coil" of coil_a.
std::string pair_of(const Terminal& terminal) {
  const std::size_t cut = terminal.name.rfind('_');
  return cut == std::string::npos ? "" : " " + tr(words_of_key(terminal.name.substr(0, cut)));
}

/// The part, or one part "to" another.
std::string place_of(const Installation& installation, const Order& order) {
  const auto name = [&](PartId part) { return words_of_key(installation.parts[part].name); };
  if (!has_leads(order)) return name(order.part);
  const Hookup& leads = order.leads;
  if (leads.in_series) return name(leads.a.part) + pair_of(leads.a);
  if (leads.a.part == leads.b.part) {
    const bool one = pair_of(leads.a) == pair_of(leads.b);
    return name(leads.a.part) + (one ? pair_of(leads.a) : "");
  }
  // Of numbers, the same words mean something else.
  const std::string a = name(leads.a.part), b = name(leads.b.part);
  return say_with(tr_as("from part to part", "{} to {}"), "{} to {}", fmt::make_format_args(a, b));
}

LaneOf channel_of(const Installation& installation, const LaidOn& laid) {
  return lane_of_channel(*laid.record, laid.letter + " " + words_of(installation, laid.order));
}

}  // namespace

std::string words_of(const Installation& installation, const Order& order) {
  using Kind = Order::Kind;
  const std::string place = place_of(installation, order);
  switch (order.kind) {
    case Kind::kVolts:
      return say("{}, volts", place);
    case Kind::kAmperes:
      return say("{}, amperes", place);
    case Kind::kOhms:
      return say("{}, ohms", place);
    case Kind::kBeat:
      return say("{}, beat", place);
    case Kind::kTemperature:
      return say("{}, temperature", place);
    case Kind::kListen:
      return say("{}, what is heard", place);
    default:
      return place;
  }
}

std::string LaidMeters::add(const Installation& installation, const std::string& text) {
  std::string mistake;
  const std::optional<Order> order = order_of(text, installation, mistake);
  if (!order) return mistake;
  const bool is_meter = order->is_meter();
  make_room(is_meter);
  LaidOn laid;
  laid.letter = free_letter();
  laid.order = *order;
  if (is_meter) {
    const std::string where = text.substr(0, text.find(','));
    if (!order->needle) laid.needle = order_of(where + ",as=needle", installation, mistake);
    laid.record = order_of("record:" + where, installation, mistake);
    if (laid.record) laid.channel = channel_of(installation, laid);
  }
  all_.push_back(std::move(laid));
  return mistake;
}

void LaidMeters::make_room(bool electrical) {
  const auto is_electrical = [](const LaidOn& laid) { return laid.order.is_electrical(); };
  const auto count = std::count_if(all_.begin(), all_.end(), is_electrical);
  if (electrical && static_cast<std::size_t>(count) >= kMostElectrical)
    all_.erase(std::find_if(all_.begin(), all_.end(), is_electrical));
  if (all_.size() >= kMost) all_.erase(all_.begin());
}

std::string LaidMeters::free_letter() const {
  for (char letter = 'A';; ++letter) {
    const std::string text(1, letter);
    const bool taken = std::any_of(all_.begin(), all_.end(),
                                   [&](const LaidOn& laid) { return laid.letter == text; });
    if (!taken) return text;
  }
}

void LaidMeters::take_off(std::size_t place) {
  all_.erase(all_.begin() + static_cast<std::ptrdiff_t>(place));
}

void LaidMeters::record(const Installation& installation, std::size_t place, bool on) {
  LaidOn& laid = all_[place];
  laid.channel = on ? std::optional(channel_of(installation, laid)) : std::nullopt;
}

std::vector<Order> LaidMeters::orders() const {
  std::vector<Order> orders;
  for (const LaidOn& laid : all_) {
    orders.push_back(laid.order);
    if (laid.needle) orders.push_back(*laid.needle);
    if (laid.channel) orders.push_back(*laid.record);
  }
  return orders;
}

std::vector<LaneOf> LaidMeters::channels() const {
  std::vector<LaneOf> channels;
  for (const LaidOn& laid : all_) {
    if (laid.channel) channels.push_back(*laid.channel);
  }
  return channels;
}

std::vector<MeterTip> LaidMeters::tips() const {
  std::vector<MeterTip> tips;
  for (const LaidOn& laid : all_) {
    if (!has_leads(laid.order)) continue;
    const Hookup& leads = laid.order.leads;
    tips.push_back({leads.a.part, leads.a.name, laid.letter,
                    leads.in_series ? MeterTip::Sign::kThrough : MeterTip::Sign::kPlus});
    if (!leads.in_series)
      tips.push_back({leads.b.part, leads.b.name, laid.letter, MeterTip::Sign::kMinus});
  }
  return tips;
}

}  // namespace sixty::gui
