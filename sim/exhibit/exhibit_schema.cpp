#include "sim/exhibit/exhibit_schema.hpp"

#include <utility>

#include "sim/lesson/lesson_schema.hpp"

namespace sixty::exhibit {
namespace {

using lesson::words_schema;
using schema::Json;

Json piece() {
  Json json;
  lesson::add_run_schema(json);
  json["name"] = schema::text("By which its use is counted.");
  json["text"] = words_schema("What is to be seen.");
  json["answer"] = words_schema("What happened and why.");
  json["button"] = words_schema("What a visitor presses to see it.");
  json["right"] = schema::yes_or_no("It is the right guess.");
  json["live"] = schema::yes_or_no("The clocks as they stand now.");
  json["for"] = schema::text("How long it stays at the least.");
  json["facts"] = schema::named_map(lesson::fact_schema());
  return schema::closed_object(std::move(json), {"name", "text"});
}

Json one_case() {
  Json json;
  json["first"] = piece();
  json["hands"] = schema::list_of(piece());
  return schema::closed_object(std::move(json), {"first"});
}

Json thing() {
  Json json;
  json["name"] = schema::text("By which its use is counted.");
  json["title"] = words_schema("What stands on its button.");
  json["icon"] = schema::text("The part that is drawn there.");
  json["first"] = piece();
  json["hands"] = schema::list_of(piece());
  json["cases"] = schema::list_of(one_case());
  return schema::closed_object(std::move(json), {"name", "title"});
}

Json object_of_texts(const std::vector<std::pair<const char*, const char*>>& keys) {
  Json json;
  for (const auto& [key, description] : keys) json[key] = schema::text(description);
  return schema::closed_object(std::move(json), {});
}

}  // namespace

OtherFile exhibit_schema() {
  Json json;
  json["exhibit"] = words_schema("Its title.");
  json["institution"] = words_schema("Whose it is.");
  json["scene"] = schema::text("The scene that it is of.");
  json["set"] = schema::list_of(schema::text("PART.VALUE=QUANTITY"));
  json["time_zone"] = schema::text("Europe/Berlin; the system's, if nothing is said.");
  json["languages"] = schema::list_of(schema::text("Code; the first when nobody is there."));
  json["screen"] = object_of_texts(
      {{"width",
        "Of the picture where the screen lies, its height where it stands on end: 477 mm."},
       {"distance", "Of who reads it: 600 mm."},
       {"layout", "usual, or low: all that is touched below."}});
  json["theme"] = schema::words({"dark", "light"}, "Its colours.");
  json["accent"] = schema::text("Colour of what can be touched: \"#rrggbb\".");
  json["dial"] = schema::text("The part whose dial stands at the head.");
  json["sound"] = object_of_texts({{"volume", "60 %"}, {"most", "How far staff can turn it up."}});
  json["idle"] = object_of_texts({{"ask_after", "50 s"}, {"answer_within", "18 s"}});
  json["open"] = {{"type", "object"}};
  json["quiet"] = {{"type", "object"}};
  json["staff"] = object_of_texts({{"corner", "upper left, upper right, lower left, lower right"},
                                   {"hold", "How long it is held: 5 s."},
                                   {"pin", "What --make-pin prints."},
                                   {"keys", "Held at once: Ctrl+Alt+F9."}});
  json["story"] = schema::list_of(piece());
  json["things"] = schema::list_of(thing());
  return {"exhibit",
          schema::closed_object(std::move(json), {"exhibit", "scene", "story", "things"}).dump()};
}

}  // namespace sixty::exhibit
