#include "sim/scene/plan.hpp"

#include <cmath>
#include <optional>

#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr double kFarthest_m = 10'000;

// A map's value under a declared key. Errors: nothing if it is absent, or wrong (reported).
std::optional<double> read_number(const YamlNode& map, const ParamDecl& field,
                                  const std::string& label, TreeReader& reader) {
  const YamlNode* node = map.find(field.name);
  if (node == nullptr && field.required)
    reader.required(map, map, field.name, label, expectation(field));
  if (node == nullptr) return std::nullopt;
  const std::optional<Value> value = check_value(field, *node, label + "." + field.name, reader);
  return value ? std::optional<double>(value->number) : std::nullopt;
}

// Reads a map of numbers into places of the same order as the fields; what is absent stays.
void read_fields(const YamlNode& map, const std::vector<ParamDecl>& fields,
                 const std::vector<double*>& places, const std::string& label, TreeReader& reader) {
  reader.check_keys(map, label, names_of(fields));
  for (std::size_t i = 0; i < fields.size(); ++i)
    *places[i] = read_number(map, fields[i], label, reader).value_or(*places[i]);
}

Room read_one(const YamlNode& key, const YamlNode& map, TreeReader& reader) {
  Room room;
  room.name = key.scalar;
  reader.check_name(key, "room");
  const std::string label = "rooms." + room.name;
  if (!reader.is_map(map, label, "{floor: 1, x: 4 m, y: 12 m}")) return room;
  double floor = 0;
  read_fields(map, room_fields(), {&floor, &room.x_m, &room.y_m, &room.width_m, &room.height_m},
              label, reader);
  room.floor = static_cast<int>(floor);
  return room;
}

}  // namespace

const Room* Plan::find(const std::string& room) const {
  const std::size_t i = index_of(rooms, room);
  return i == rooms.size() ? nullptr : &rooms[i];
}

double Plan::way_m(const Room& from, const Room& to) const {
  const double along = std::fabs((from.x_m + from.width_m / 2) - (to.x_m + to.width_m / 2)) +
                       std::fabs((from.y_m + from.height_m / 2) - (to.y_m + to.height_m / 2));
  const double up = storey_m * std::abs(from.floor - to.floor);
  return std::round((along + up) * (1 + allowance) * 100) / 100;
}

std::vector<ParamDecl> room_fields() {
  return {count_field("floor", -10, 100, "Floor on which it lies; 0 is the ground floor."),
          quantity_field("x", "m", -kFarthest_m, kFarthest_m, "Left edge on the plan."),
          quantity_field("y", "m", -kFarthest_m, kFarthest_m, "Lower edge on the plan."),
          quantity_field("width", "m", 0, kFarthest_m, "Extent along x; 0 if left out.", false),
          quantity_field("height", "m", 0, kFarthest_m, "Extent along y; 0 if left out.", false)};
}

std::vector<ParamDecl> plan_fields() {
  return {quantity_field("storey", "m", 1, 20, "From floor to floor; 3.5 m if left out.", false),
          quantity_field("allowance", "1", 0, 2,
                         "Share by which a wire is longer than the way; 15 % if left out.", false)};
}

Plan read_plan(const YamlNode& root, TreeReader& reader) {
  Plan plan;
  const YamlNode* ways = root.find("plan");
  if (ways != nullptr && reader.is_map(*ways, "plan", "{storey: 3.5 m, allowance: 15 %}"))
    read_fields(*ways, plan_fields(), {&plan.storey_m, &plan.allowance}, "plan", reader);
  const YamlNode* rooms = root.find("rooms");
  if (rooms == nullptr || !reader.is_map(*rooms, "rooms", "{hall: {floor: 0, x: 4 m, y: 12 m}}"))
    return plan;
  for (const auto& [key, map] : rooms->entries) plan.rooms.push_back(read_one(key, map, reader));
  return plan;
}

std::string read_room(const YamlNode& map, const std::string& label, const Plan& plan,
                      TreeReader& reader) {
  const YamlNode* room = map.find("room");
  if (room == nullptr || !reader.is_scalar(*room, label + ".room", "the name of a room")) return "";
  if (plan.find(room->scalar) != nullptr) return room->scalar;
  reader.mistakes().add_unknown(reader.place(*room), "", "room", room->scalar,
                                names_of(plan.rooms));
  return "";
}

}  // namespace sixty
