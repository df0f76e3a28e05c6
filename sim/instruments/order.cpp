#include "sim/instruments/order.hpp"

#include <algorithm>
#include <map>
#include <vector>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/instruments/leads.hpp"
#include "sim/scene/values.hpp"

namespace sixty::instruments {
namespace {

using Kind = Order::Kind;

constexpr const char* kForm =
    "V, A, ohm, record, listen, temperature, beat or tally, a colon, and where";

const std::map<std::string, Kind>& kinds() {
  static const std::map<std::string, Kind> known = {
      {"V", Kind::kVolts},       {"A", Kind::kAmperes}, {"ohm", Kind::kOhms},
      {"listen", Kind::kListen}, {"beat", Kind::kBeat}, {"temperature", Kind::kTemperature},
      {"tally", Kind::kTally},
  };
  return known;
}

class OrderReader {
 public:
  OrderReader(const std::string& text, const Installation& installation, Mistakes& mistakes)
      : whole_{"", text, {"", 0, 0, "--meter"}}, installation_(installation), mistakes_(mistakes) {
    order_.text = text;
  }

  std::optional<Order> read() {
    const std::vector<std::string> pieces = pieces_of(whole_.text, ',');
    if (!read_head(pieces[0])) return std::nullopt;
    bool sound = true;
    for (std::size_t k = 1; k < pieces.size(); ++k) sound = read_option(pieces[k]) && sound;
    return sound ? std::optional<Order>(order_) : std::nullopt;
  }

 private:
  bool refuse(const std::string& what, const std::string& found, const std::string& expected,
              const std::string& mend) {
    mistakes_.add(whole_.place, {what, found, expected, mend});
    return false;
  }

  bool read_head(const std::string& head) {
    const std::size_t colon = head.find(':');
    if (colon == std::string::npos)
      return refuse("an instrument and a place belong here", head, kForm,
                    "write it like V:PART or listen:PART");
    const std::string kind = head.substr(0, colon), where = head.substr(colon + 1);
    if (kind == "record") return read_recorded(where);
    const auto known = kinds().find(kind);
    if (known == kinds().end()) {
      std::vector<std::string> names{"record"};
      for (const auto& [name, k] : kinds()) names.push_back(name);
      mistakes_.add_unknown(whole_.place, "", "instrument", kind, names);
      return false;
    }
    order_.kind = known->second;
    return read_where(where);
  }

  bool read_recorded(const std::string& where) {
    order_.recorded = true;
    const std::size_t colon = where.find(':');
    if (colon == std::string::npos) {
      order_.kind = Kind::kReading;
      return read_where(where);
    }
    const std::string kind = where.substr(0, colon);
    if (kind != "V" && kind != "A")
      return refuse("a recorder follows volts, amperes or a reading", where,
                    "record:V:WHERE, record:A:WHERE or record:PART.READING", "choose one of them");
    order_.kind = kind == "V" ? Kind::kVolts : Kind::kAmperes;
    return read_where(where.substr(colon + 1));
  }

  bool read_where(const std::string& where) {
    const Asked asked{where, whole_};
    if (order_.kind == Kind::kVolts || order_.kind == Kind::kOhms)
      return lead(read_two(asked, installation_, mistakes_));
    if (order_.kind == Kind::kAmperes) return lead(read_wire(asked, installation_, mistakes_));
    const std::size_t dot = where.find('.');
    const auto part = read_part({where.substr(0, dot), whole_}, installation_, mistakes_);
    if (!part) return false;
    order_.part = *part;
    return read_item(dot == std::string::npos ? "" : where.substr(dot + 1));
  }

  bool lead(const std::optional<Hookup>& leads) {
    if (leads) order_.leads = *leads;
    return leads.has_value();
  }

  bool read_item(const std::string& item) {
    const PartInstance& part = installation_.parts[order_.part];
    if (order_.kind == Kind::kTally) return item.empty() || read_kind(item);
    if (order_.kind != Kind::kReading) {
      if (item.empty()) return true;
      return refuse("the part alone belongs here", whole_.text, part.name,
                    "leave ." + item + " out");
    }
    const std::vector<NamedDecl>& readings = part.kind->declaration.readings;
    order_.reading = index_of(readings, item);
    if (order_.reading < readings.size()) return true;
    mistakes_.add_unknown(whole_.place, part.name, "reading", item, names_of(readings));
    return false;
  }

  bool read_kind(const std::string& kind) {
    order_.event = kind;
    const PartInstance& part = installation_.parts[order_.part];
    const std::vector<std::string> kinds = part.kind->declaration.event_kinds();
    if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) return true;
    mistakes_.add_unknown(whole_.place, part.name, "kind of event", kind, kinds);
    return false;
  }

  bool read_option(const std::string& piece) {
    const std::size_t equals = piece.find('=');
    const std::string key = piece.substr(0, equals);
    const std::string value = equals == std::string::npos ? "" : trimmed(piece.substr(equals + 1));
    if (key == "as" && order_.is_meter()) return read_make(value);
    if (key == "range" && order_.is_meter()) return read_range(value);
    if (key == "beats" && order_.kind == Kind::kBeat) return read_beats(value);
    const std::string known = order_.is_meter()            ? "as=needle, as=digital, range=QUANTITY"
                              : order_.kind == Kind::kBeat ? "beats=NUMBER of an hour"
                                                           : "nothing behind the place";
    return refuse("this says nothing of such an instrument", piece, known, "leave it out");
  }

  bool read_make(const std::string& make) {
    order_.needle = make == "needle";
    if (make == "needle" || make == "digital") return true;
    return refuse("no such make of meter", make, "needle or digital",
                  did_you_mean(make, {"needle", "digital"}));
  }

  bool read_range(const std::string& text) {
    const bool volts = order_.kind == Kind::kVolts;
    const ParamDecl decl = quantity_field("range", volts ? "V" : "A", 0.01, 1000, "");
    const auto value = check_text(decl, {"range", text, whole_.place}, mistakes_);
    if (value) order_.full_scale = value->number;
    return value.has_value();
  }

  bool read_beats(const std::string& text) {
    const ParamDecl decl = count_field("beats", 600, 36000, "");
    const auto value = check_text(decl, {"beats", text, whole_.place}, mistakes_);
    if (value) order_.beats_per_hour = value->number;
    return value.has_value();
  }

  const Written whole_;
  const Installation& installation_;
  Mistakes& mistakes_;
  Order order_;
};

/// Whether the range asked for is one of the meter's; as= may stand behind range=, so it is checked
/// at the end.
bool has_range(const Order& order, Mistakes& mistakes) {
  if (order.full_scale == 0) return true;
  const MeterSheet& sheet = sheet_of(order);
  std::vector<std::string> known;
  for (const MeterRange& range : sheet.ranges) {
    if (range.full_scale == order.full_scale) return true;
    known.push_back(format_quantity(range.full_scale, sheet.unit));
  }
  mistakes.add(
      {"", 0, 0, "--meter"},
      {"the " + sheet.name + " has no such range", format_quantity(order.full_scale, sheet.unit),
       "one of " + listed(known), "choose one of them, or leave range= out"});
  return false;
}

}  // namespace

const MeterSheet& sheet_of(const Order& order) {
  return order.kind == Order::Kind::kVolts ? voltmeter(order.needle) : ammeter(order.needle);
}

std::optional<Order> read_order(const std::string& text, const Installation& installation,
                                Mistakes& mistakes) {
  const std::optional<Order> order = OrderReader(text, installation, mistakes).read();
  if (!order || !has_range(*order, mistakes)) return std::nullopt;
  return order;
}

}  // namespace sixty::instruments
