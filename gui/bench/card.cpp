#include "gui/bench/card.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/bench/meters.hpp"
#include "gui/bench/panel_pieces.hpp"
#include "gui/bench/values_panel.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/scene/values.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

bool can_be(const ParamDecl& argument, double number) {
  constexpr double kClose = 1e-6;
  if (!in_range(argument, number)) return false;
  const double steps = argument.step > 0 ? number / argument.step : 0;
  return std::fabs(steps - std::round(steps)) < kClose;
}

/// One to begin with, where nothing tells a better one.
double begun_with(const ParamDecl& argument) {
  constexpr double kWide = 1000;  // the middle of seconds and days is minutes
  const double standard = argument.standard.number;
  if (!argument.required && standard != 0 && can_be(argument, standard)) return standard;
  if (argument.kind == ParamKind::kCount) return argument.least;
  const bool is_wide = argument.least > 0 && argument.most / argument.least > kWide;
  const double middle =
      is_wide ? std::sqrt(argument.least * argument.most) : (argument.least + argument.most) / 2;
  if (argument.step > 0)
    return clamped(argument, std::round(middle / argument.step) * argument.step);
  return middle;
}

float wide(const std::string& text) { return ImGui::CalcTextSize(text.c_str()).x; }

/// Of the column of readings, where there is no twin's beside it. Units: pixels.
float widest_reading(const Picture& picture, const PartInstance& part) {
  float widest = wide("00.00 mohm");  // it does not change with each number
  for (std::size_t k = 0; k < picture.readings.size(); ++k)
    widest =
        std::max(widest, wide(shown_text(picture.readings[k], part.kind->declaration.readings[k])));
  return widest;
}

/// Puts words with their end there. Units: pixels, on the screen.
void put_before(float right, const std::string& text) {
  ImGui::SetCursorScreenPos({right - wide(text), ImGui::GetCursorScreenPos().y});
  ImGui::TextUnformatted(text.c_str());
}

void show_beside_twin(const NamedDecl& reading, const std::string& now, const std::string& twin,
                      float column) {
  const std::string name = words_of_reading(reading);
  const float left = ImGui::GetCursorScreenPos().x, room = ImGui::GetContentRegionAvail().x;
  const BesideTwin lies = beside_twin(room, column, wide(name), wide(now), wide(twin));
  ImGui::TextUnformatted(name.c_str());
  show_tip(tr(reading.help).c_str());
  if (!lies.is_name_alone) ImGui::SameLine();
  put_before(left + lies.now_ends, now);
  ImGui::SameLine();
  put_before(left + room, twin);
}

}  // namespace

BesideTwin beside_twin(float room, float column, float name, float now, float twin) {
  constexpr float kApart = 8;
  const float now_ends = room - std::max(column, twin + kApart);
  return {name + kApart > now_ends - now, now_ends};
}

std::string words_of_order(const std::string& order) {
  constexpr std::array<std::pair<const char*, const char*>, 6> kKinds{
      {{"V", to_tr("Volts")},
       {"A", to_tr("Amperes")},
       {"ohm", to_tr("Ohms")},
       {"beat", to_tr("Beat")},
       {"temperature", to_tr("Temperature")},
       {"listen", to_tr("Listen")}}};
  const std::size_t colon = std::min(order.find(':'), order.size());
  const std::size_t dot = order.find('.', colon);
  std::string words = order.substr(0, colon);
  for (const auto& [kind, told] : kKinds) {
    if (words != kind) continue;
    words = tr(told);
    break;
  }
  if (dot == std::string::npos) return words;
  return say("{}, {}", words, tr(words_of_key(order.substr(dot + 1))));
}

Offered offered_for(const Installation& installation, PartId part, std::size_t command,
                    const std::vector<Action>& log, SimTime now,
                    const std::vector<double>& readings) {
  const PartInstance& own = installation.parts[part];
  const Declaration& declared = own.kind->declaration;
  const CommandDecl& does = declared.commands[command];
  const ParamDecl& argument = *does.argument;
  if (const auto value = own.values.find(does.sets); value != own.values.end()) {
    double number = value->second.number;
    for (const Action& action : log) {
      const bool is_hand = action.fault == nullptr && action.hookup == nullptr;
      if (is_hand && action.part == part && action.command == command && action.at <= now)
        number = action.value;
    }
    if (can_be(argument, number)) return {number, true};
  }
  for (std::size_t k = 0; k < readings.size() && k < declared.readings.size(); ++k) {
    const std::string& name = declared.readings[k].name;
    const bool meant = name == does.sets || name == does.begins_with;
    // What it begins with may lie between two steps: a time of the dial, with its seconds.
    const bool between = name != does.sets && argument.step > 0;
    const double number =
        between ? std::floor(readings[k] / argument.step) * argument.step : readings[k];
    if (meant && can_be(argument, number)) return {number, name == does.sets};
  }
  return {begun_with(argument), false};
}

Card::Kept& Card::kept(const Bench& bench, PartId id) {
  const auto [place, is_new] = kept_.try_emplace(id);
  if (!is_new) return place->second;
  const PartInstance& part = bench.installation().parts[id];
  place->second.arguments.resize(part.kind->declaration.commands.size());
  for (const auto& fault : faults_.all()) {
    if (fault->kind == part.kind && fits(*fault, part))
      place->second.faults.push_back({fault, fault->typical, false});
  }
  place->second.neighbours = neighbours_of(bench.installation(), id);
  place->second.orders = orders_at(bench.installation(), id);
  return place->second;
}

/// What it is. A low card, as beside instruments, needs its room for what it is doing.
void Card::show_title(const PartInstance& part, float high) const {
  constexpr float kLow = 300;
  const Declaration& declared = part.kind->declaration;
  show_heading(heading_, words_of_key(part.name).c_str());
  const std::string help = tr(declared.help);
  show_second(tr(declared.title));
  if (high < kLow) return show_tip((part.notes.empty() ? help : help + "\n" + part.notes).c_str());
  show_text(help);
  if (!part.notes.empty()) show_text(part.notes);
}

Wishes Card::show(Bench& bench, const sf::FloatRect& box, ImFont* heading,
                  const std::string& scene) {
  heading_ = heading;
  const PartId id = *bench.look().selected;
  const Panel panel("card", box);
  const PartInstance& part = bench.installation().parts[id];
  show_title(part, box.height);
  Wishes wishes;
  if (ImGui::Button(tr("Why?"))) wishes.why = id;
  show_tip(tr("why what begins here about now does, or does not (W)"));
  ImGui::SameLine();
  if (ImGui::Button(tr("What is wrong?"))) wishes.notice = id;
  show_tip(tr("what it does wrong, to find the fault that explains it"));
  ImGui::Separator();
  show_readings(bench, id);
  for (const std::string& line : measured_) show_text(line);
  if (std::string order = show_orders(bench, id); !order.empty()) wishes.measure = std::move(order);
  wishes.select = show_neighbours(bench, id);
  show_commands(bench, id);
  show_faults(bench, id);
  ImGui::Separator();
  show_heading(heading_, tr("Data sheet"));
  if (auto sheet = values_.show(part, scene)) sheet_ = std::move(sheet);
  return wishes;
}

/// As they are, and beside them a sound twin's.
void Card::show_readings(const Bench& bench, PartId id) const {
  const Picture& picture = bench.picture();
  if (picture.watched != id) return;
  const PartInstance& part = bench.installation().parts[id];
  const std::vector<NamedDecl>& readings = part.kind->declaration.readings;
  if (!ImGui::BeginTable("readings", picture.twin ? 1 : 2)) return;
  ImGui::TableSetupColumn("", ImGuiTableColumnFlags_WidthStretch);
  if (picture.twin) {
    const float column = wide("0.0000 Wb");  // as wide as most are, and the same at any moment
    ImGui::TableNextColumn();
    ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_TextDisabled));
    const float right = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
    put_before(right - column, tr("now"));
    ImGui::SameLine();
    put_before(right, tr("twin"));
    ImGui::PopStyleColor();
    for (std::size_t k = 0; k < picture.readings.size(); ++k) {
      ImGui::TableNextColumn();
      show_beside_twin(readings[k], shown_text(picture.readings[k], readings[k]),
                       shown_text(picture.twin->readings[k], readings[k]), column);
    }
  } else {
    ImGui::TableSetupColumn("now", ImGuiTableColumnFlags_WidthFixed, widest_reading(picture, part));
    for (std::size_t k = 0; k < picture.readings.size(); ++k) {
      ImGui::TableNextColumn();
      show_text(words_of_reading(readings[k]));
      show_tip(tr(readings[k].help).c_str());
      ImGui::TableNextColumn();
      put_before(ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x,
                 shown_text(picture.readings[k], readings[k]));
    }
  }
  ImGui::EndTable();
}

/// What it works with; each leads to its own card. Returns the one that was pressed.
std::optional<PartId> Card::show_neighbours(const Bench& bench, PartId id) {
  constexpr std::size_t kMost = 8;
  std::optional<PartId> chosen;
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  const auto show = [&](const char* words, const std::vector<PartId>& parts) {
    if (parts.empty()) return;
    ImGui::AlignTextToFramePadding();
    ImGui::TextDisabled("%s", words);
    for (std::size_t k = 0; k < std::min(parts.size(), kMost); ++k) {
      const std::string name = words_of_key(bench.installation().parts[parts[k]].name);
      const float width = ImGui::CalcTextSize(name.c_str()).x + 20;
      ImGui::SameLine();
      if (ImGui::GetCursorScreenPos().x + width > right) ImGui::NewLine();
      ImGui::PushID(static_cast<int>(parts[k]));
      if (ImGui::Button(name.c_str())) chosen = parts[k];
      ImGui::PopID();
    }
    if (parts.size() > kMost) {
      const auto left_out = static_cast<std::int64_t>(parts.size() - kMost);
      const std::string more = say_counted("and {} more", "and {} more", left_out);
      ImGui::SameLine();
      if (ImGui::GetCursorScreenPos().x + ImGui::CalcTextSize(more.c_str()).x > right)
        ImGui::NewLine();
      ImGui::TextDisabled("%s", more.c_str());
    }
  };
  ImGui::Separator();
  const Neighbours& neighbours = kept(bench, id).neighbours;
  show(tr("Fed by"), neighbours.fed_by);
  show(tr("Feeds"), neighbours.feeds);
  show(tr("Wired to"), neighbours.joined);
  return chosen;
}

/// What can be measured at it. Returns what was chosen.
std::string Card::show_orders(const Bench& bench, PartId id) {
  Kept& own = kept(bench, id);
  if (own.orders.empty() || !ImGui::BeginCombo("##measure", tr("Measure ..."))) return "";
  std::string chosen;
  for (const std::string& order : own.orders) {
    if (ImGui::Selectable(words_of_order(order).c_str())) chosen = order;
  }
  ImGui::EndCombo();
  return chosen;
}

/// What a hand can do to it.
void Card::show_commands(Bench& bench, PartId id) {
  const std::size_t commands = bench.installation().parts[id].kind->declaration.commands.size();
  if (commands == 0) return;
  ImGui::Separator();
  show_heading(heading_, tr("By hand"));
  const Part& part = *bench.installation().parts[id].part;
  for (std::size_t k = 0; k < commands; ++k) {
    if (!part.has_use_for(k)) continue;
    ImGui::PushID(static_cast<int>(k));
    show_command(bench, id, k);
    ImGui::PopID();
  }
}

/// With its quantity, as the part has it now or as it was written over. What is no such quantity
/// is told, and nothing done.
void Card::show_command(Bench& bench, PartId id, std::size_t k) {
  constexpr float kField = 110;
  const CommandDecl& command = bench.installation().parts[id].kind->declaration.commands[k];
  const bool pressed = ImGui::Button(tr(words_of_key(command.name)).c_str());
  show_tip(tr(command.help).c_str());
  if (!command.argument) {
    if (pressed) bench.command(id, k, 0);
    return;
  }
  const ParamDecl& argument = *command.argument;
  static const std::vector<double> kNone;
  const Picture& picture = bench.picture();
  const Offered offered = offered_for(bench.installation(), id, k, *bench.seen().log, picture.at,
                                      picture.watched == id ? picture.readings : kNone);
  std::string& written = kept(bench, id).arguments[k];
  const std::string standing = written_number(argument, offered.number);
  std::string words = written.empty() ? standing : written;
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  ImGui::SameLine();
  if (ImGui::GetCursorScreenPos().x + kField > right) ImGui::NewLine();
  ImGui::SetNextItemWidth(kField);
  if (ImGui::InputText("##argument", &words)) written = words == standing ? "" : words;
  show_tip(say("{}: {}", tr(argument.help), spoken_expectation(argument)).c_str());
  std::string wrong;
  const std::optional<Value> value = value_of(argument, words, wrong);
  if (!value) show_text(say("! {}; takes {}", wrong, spoken_expectation(argument)));
  if (!pressed || !value) return;
  bench.command(id, k, written.empty() ? offered.number : value->number);
  if (offered.is_present) written.clear();
}

void Card::show_faults(Bench& bench, PartId id) {
  std::vector<Kept::Choice>& choices = kept(bench, id).faults;
  if (choices.empty()) return;
  ImGui::Separator();
  show_heading(heading_, tr("Faults"));
  const bool hidden = bench.look().hides_wrong;
  for (std::size_t k = 0; k < choices.size() && !hidden; ++k) {
    ImGui::PushID(static_cast<int>(k));
    show_fault(bench, id, choices[k]);
    ImGui::PopID();
  }
  if (!hidden) ImGui::Separator();
  bool hides = hidden;
  if (ImGui::Checkbox(tr("hide what is wrong"), &hides)) bench.hide_wrong(hides);
  show_tip(tr("no marks, no twin, no why, and none of these: for hunting faults (X)"));
}

/// What is in force is what the run says, whoever has put it in.
void Card::show_fault(Bench& bench, PartId id, Kept::Choice& choice) {
  const std::optional<double> in_force = bench.severity_of(id, *choice.fault);
  bool put_in = in_force.has_value();
  bool changed = ImGui::Checkbox("##in", &put_in);
  ImGui::SameLine();
  show_text(tr(choice.fault->title));
  if (ImGui::IsItemClicked()) {  // its words are pressed as its box is
    put_in = !put_in;
    changed = true;
  }
  if (changed && put_in) bench.put_fault(id, choice.fault, choice.severity);
  if (changed && !put_in) bench.clear_fault(id, choice.fault);
  const Fault& fault = *choice.fault;
  const std::string check = say("Check: {}", tr(fault.check));
  const std::string remedy = say("Remedy: {}", tr(fault.remedy));
  const std::string caution = say("Caution: {}", tr(fault.caution));
  std::string told = tr(fault.seen);
  if (!fault.check.empty()) told += "\n\n" + check;
  if (!fault.remedy.empty()) told += "\n\n" + remedy;
  if (!fault.caution.empty()) told += "\n\n" + caution;
  show_tip(told.c_str());
  if (!in_force) return;
  const float under_title = ImGui::GetFrameHeight() + ImGui::GetStyle().ItemSpacing.x;
  const auto tell = [](const std::string& fact, const std::string& sentence) {
    if (fact.empty()) return;
    show_text(sentence.back() == '.' ? sentence : sentence + ".");
  };
  ImGui::Indent(under_title);
  tell(fault.caution, caution);
  show_severity(bench, id, choice, *in_force);
  tell(fault.seen, say("Seen: {}", tr(fault.seen)));
  tell(fault.check, check);
  tell(fault.remedy, remedy);
  ImGui::Unindent(under_title);
  ImGui::Spacing();
}

/// Its number stands beside the slider, where nothing hides it.
void Card::show_severity(Bench& bench, PartId id, Kept::Choice& choice, double in_force) {
  // While the slider is drawn along, the run has not always followed.
  auto severity = static_cast<float>(choice.drawn ? choice.severity : in_force);
  const std::string number = say("severity {:.2f}", severity);
  ImGui::SetNextItemWidth(-(ImGui::CalcTextSize(say("severity {:.2f}", 0.0).c_str()).x + 12));
  if (ImGui::SliderFloat("##severity", &severity, 0.01F, 1.0F, ""))
    choice.severity = static_cast<double>(severity);
  choice.drawn = ImGui::IsItemActive();
  // Each is a deed of its own: not one for each pixel.
  const bool is_far = std::fabs(choice.severity - in_force) >= 0.03;
  if ((choice.drawn && is_far) || ImGui::IsItemDeactivatedAfterEdit())
    bench.put_fault(id, choice.fault, choice.severity);
  ImGui::SameLine();
  ImGui::TextUnformatted(number.c_str());
}

}  // namespace sixty::gui
