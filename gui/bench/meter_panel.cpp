#include "gui/bench/meter_panel.hpp"

#include <algorithm>
#include <limits>

#include "gui/bench/meter_answers.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace instruments;

constexpr float kMargin = 14;

/// The letter as on the tips' flags, and what is measured.
void show_heading_of(const Installation& installation, const LaidOn& laid) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float size = ImGui::GetTextLineHeight() + 4;
  ImDrawList& lines = *ImGui::GetWindowDrawList();
  const ImU32 fill = ImGui::GetColorU32(ImGuiCol_CheckMark);
  if (laid.letter == "B")
    lines.AddRectFilled(at, {at.x + size, at.y + size}, fill);
  else
    lines.AddCircleFilled({at.x + size / 2, at.y + size / 2}, size / 2, fill);
  const ImVec2 letter = ImGui::CalcTextSize(laid.letter.c_str());
  lines.AddText({at.x + (size - letter.x) / 2, at.y + (size - letter.y) / 2},
                ImGui::GetColorU32(ImGuiCol_WindowBg), laid.letter.c_str());
  ImGui::Dummy({size, size});
  ImGui::SameLine();
  show_text(words_of(installation, laid.order));
  show_tip(say("on the command line: {}", laid.order.text).c_str());
}

std::vector<std::string> texts_of(const std::vector<Order>& orders) {
  std::vector<std::string> texts;
  for (const Order& order : orders) texts.push_back(order.text);
  return texts;
}

}  // namespace

void MeterPanel::add(const Bench& bench, const std::string& text) {
  open_ = true;
  mistake_ = laid_.add(bench.installation(), text);
}

void MeterPanel::put_tip(const Bench& bench, const Terminal& terminal) {
  if (!first_) {
    first_ = terminal;
    return;
  }
  if (*first_ == terminal) return;
  const auto name = [&](const Terminal& t) {
    return bench.installation().parts[t.part].name + "." + t.name;
  };
  add(bench, *placing_ + name(*first_) + ".." + name(terminal));
  placing_.reset();
  first_.reset();
}

std::vector<MeterTip> MeterPanel::tips() const {
  std::vector<MeterTip> tips = laid_.tips();
  if (first_) tips.push_back({first_->part, first_->name, "", MeterTip::Sign::kPlus});
  return tips;
}

std::vector<double> MeterPanel::channel_values() const {
  const std::shared_ptr<const Meters::Told> told = meters_.told();
  std::vector<double> values;
  for (const LaidOn& laid : laid_.all()) {
    if (!laid.channel) continue;
    const Answer* answer = told->of(*laid.record);
    const bool read = answer != nullptr && !std::get<Channel>(*answer).samples.empty();
    values.push_back(read ? std::get<Channel>(*answer).samples.back()
                          : std::numeric_limits<double>::quiet_NaN());
  }
  return values;
}

std::vector<std::string> MeterPanel::read_at(PartId part) const {
  const std::shared_ptr<const Meters::Told> told = meters_.told();
  std::vector<std::string> lines;
  for (const LaidOn& laid : laid_.all()) {
    const Hookup& leads = laid.order.leads;
    if (!laid.order.is_meter()) continue;
    if (leads.a.part != part && (leads.in_series || leads.b.part != part)) continue;
    for (const Order* order : {&laid.order, laid.needle ? &*laid.needle : nullptr}) {
      const Answer* answer = order == nullptr ? nullptr : told->of(*order);
      if (answer == nullptr) continue;
      const auto& reading = std::get<MeterReading>(*answer);
      lines.push_back(laid.letter + "  " + read_text(reading, reading.last) + ", " +
                      tr(reading.sheet->name));
    }
  }
  return lines;
}

void MeterPanel::follow(const Bench& bench) {
  const std::vector<Order> orders = laid_.orders();
  if (orders.empty()) return;
  const SimTime now = bench.picture().at;
  std::vector<std::string> texts = texts_of(orders);
  const bool others = texts != asked_ || bench.seen().log != asked_log_;
  // While it runs, what was asked is answered before the next is.
  if (!others && (now == asked_at_ || (asked_at_ >= 0 && meters_.told()->at != asked_at_))) return;
  asked_at_ = now;
  asked_log_ = bench.seen().log;
  asked_ = std::move(texts);
  meters_.ask(orders, asked_log_, now);
}

sf::FloatRect MeterPanel::rest_of(sf::FloatRect room) const {
  constexpr float kTaken = kWidth + 2 * kMargin;
  if (!open_ || room.width < kTaken + kLeastDrawing) return room;
  return {room.left + kTaken, room.top, room.width - kTaken, room.height};
}

sf::FloatRect MeterPanel::share_of(const sf::FloatRect& column) const {
  constexpr float kMost = 0.63F;
  const float high = std::min(high_, kMost * column.height);
  return {column.left, column.top + column.height - high, column.width, high};
}

void MeterPanel::show_beside(Bench& bench, const sf::FloatRect& room) {
  if (!open_) return;
  ImGui::SetNextWindowPos({room.left + kMargin, room.top + kMargin});
  show(bench, std::min(kWidth, room.width - 2 * kMargin), room.height - 2 * kMargin);
}

void MeterPanel::show_in(Bench& bench, const sf::FloatRect& box) {
  if (!open_) return;
  ImGui::SetNextWindowPos({box.left, box.top});
  show(bench, box.width, box.height);
}

void MeterPanel::show(Bench& bench, float width, float most_high) {
  constexpr float kBetween = 4;  // lines lie closer than elsewhere: it shares a column with a card
  const FloatingPanel panel((std::string(tr("Instruments")) + "###instruments").c_str(), open_,
                            width, most_high);
  const ImGuiStyle& style = ImGui::GetStyle();
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(style.ItemSpacing.x, kBetween));
  show_all(bench);
  ImGui::PopStyleVar();
  high_ = ImGui::GetCursorPosY() - kBetween + style.WindowPadding.y;
}

void MeterPanel::show_all(const Bench& bench) {
  show_choice();
  const std::shared_ptr<const Meters::Told> told = meters_.told();
  if (laid_.all().empty())
    ImGui::TextWrapped("%s", tr("Choose at a part's card, or put two tips on terminals."));
  for (std::size_t k = 0; k < laid_.all().size(); ++k) show_one(bench, k, *told);
  if (off_) laid_.take_off(*off_);
  off_.reset();
  if (!told->failure.empty()) show_text(told->failure);
  if (!mistake_.empty()) show_text(mistake_);
  if (laid_.all().empty()) return;
  ImGui::Separator();
  show_second(tr("read as if they had been laid on for 3 s"));
}

void MeterPanel::show_choice() {
  const auto choice = [&](const char* text, const char* order, const char* what) {
    if (ImGui::Button(text)) {
      placing_ = order;
      first_.reset();
    }
    show_tip(what);
    ImGui::SameLine();
  };
  choice(tr("Volts"), "V:", tr("two tips on two terminals of the drawing"));
  choice(tr("Amperes"), "A:", tr("the same, through the meter: it lies across them"));
  choice(tr("Ohms"), "ohm:", tr("with the circuit dead"));
  ImGui::NewLine();
  if (placing_)
    ImGui::TextWrapped("%s", first_ ? tr("Press the second terminal on the drawing.")
                                    : tr("Press the first terminal on the drawing."));
}

void MeterPanel::show_one(const Bench& bench, std::size_t place, const Meters::Told& told) {
  const LaidOn& laid = laid_.all()[place];
  ImGui::Separator();
  ImGui::PushID(laid.letter.c_str());
  show_heading_of(bench.installation(), laid);
  const Answer* answer = told.of(laid.order);
  const Answer* needle = laid.needle ? told.of(*laid.needle) : nullptr;
  if (answer == nullptr) {
    ImGui::TextDisabled("%s", tr("being read ..."));
  } else if (needle != nullptr) {
    show_side_by_side(std::get<MeterReading>(*needle), std::get<MeterReading>(*answer));
  } else {
    show_answer(*answer);
  }
  show_foot(bench, place);
  ImGui::PopID();
}

void MeterPanel::show_foot(const Bench& bench, std::size_t place) {
  const LaidOn& laid = laid_.all()[place];
  if (laid.record) {
    bool recorded = laid.channel.has_value();
    if (ImGui::Checkbox(tr("recorded in a lane"), &recorded))
      laid_.record(bench.installation(), place, recorded);
    show_tip(tr("a recorder's channel, laid on from the start: 10 Mohm, or a clamp"));
    ImGui::SameLine();
  }
  if (ImGui::Button(tr("Take off"))) off_ = place;
}

}  // namespace sixty::gui
