#include "gui/bench/meters.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace sixty::gui {
namespace {

using instruments::Order;

bool can_be_read(const std::string& text, const Installation& installation) {
  Diagnostics told;
  Mistakes mistakes(told);
  const std::optional<Order> order = instruments::read_order(text, installation, mistakes);
  if (order) instruments::check_orders({*order}, installation, mistakes);
  return order.has_value() && told.empty();
}

/// The part itself, and the words that two of its terminals share.
std::vector<std::string> ends_of(const PartInstance& part) {
  std::vector<std::string> ends{part.name};
  std::set<std::string> words;
  for (const auto& [terminal, node] : part.nodes) {
    if (terminal.size() > 2 && terminal[terminal.size() - 2] == '_')
      words.insert(terminal.substr(0, terminal.size() - 2));
  }
  for (const std::string& word : words) ends.push_back(part.name + "." + word);
  return ends;
}

bool listens(const Order& order) {
  return !order.is_electrical() && order.kind != Order::Kind::kOhms;
}

}  // namespace

std::vector<std::string> orders_at(const Installation& installation, PartId id) {
  const PartInstance& part = installation.parts[id];
  std::vector<std::string> orders;
  const auto offer = [&](const std::string& text) {
    if (can_be_read(text, installation)) orders.push_back(text);
  };
  for (const std::string& end : ends_of(part)) {
    for (const char* kind : {"V:", "A:", "ohm:"}) offer(kind + end);
  }
  for (const char* kind : {"beat:", "temperature:", "listen:"}) offer(kind + part.name);
  return orders;
}

const instruments::Answer* Meters::Told::of(const Order& order) const {
  for (std::size_t k = 0; k < orders.size(); ++k) {
    if (orders[k].text == order.text) return &answers[k];
  }
  return nullptr;
}

void Meters::ask(std::vector<Order> orders, Log log, SimTime now) {
  clerk_.give(0, [this, now, orders = std::move(orders), log = std::move(log)] {
    std::shared_ptr<const Told> told = read(orders, log, now);
    const std::lock_guard lock(mutex_);
    told_ = std::move(told);
  });
}

std::shared_ptr<const Meters::Told> Meters::told() const {
  const std::lock_guard lock(mutex_);
  return told_;
}

std::shared_ptr<const Meters::Told> Meters::read(const std::vector<Order>& orders, const Log& log,
                                                 SimTime now) {
  auto told = std::make_shared<Told>();
  told->at = now;
  told->orders = orders;
  try {
    session_.replace_log(*log);
    // Those that listen do so for longer, and by themselves.
    for (const Order& order : orders) {
      const SimTime before = listens(order) ? kListens : kLaidOn;
      instruments::Window window{std::max<SimTime>(now - before, 0), now, kMillisecond};
      if (window.from >= window.to) continue;
      // Of what a recorder writes the last sample is wanted: the lanes have the others.
      if (order.recorded) window.every = window.to - window.from;
      told->answers.push_back(instruments::measure(session_, {order}, window).front());
    }
    if (told->answers.size() != told->orders.size()) told->orders.clear();
  } catch (const RunFailure& stopped) {
    told->failure = stopped.what();
    told->answers.clear();
    told->orders.clear();
  }
  return told;
}

}  // namespace sixty::gui
