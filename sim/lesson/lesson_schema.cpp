#include "sim/lesson/lesson_schema.hpp"

#include <utility>

#include "sim/scene/schema_values.hpp"

namespace sixty::lesson {
namespace {

using schema::Json;

void add_fact(Json& json) {
  json["reading"] = schema::text("PART.READING");
  json["event"] = schema::text("PART.KIND of event");
  json["from"] = schema::text("PART.KIND from which it is timed");
  json["to"] = schema::text("PART.KIND up to which it is timed");
  json["meter"] = schema::text("An instrument's order, as V:PART");
  json["take"] = schema::words({"last", "first", "least", "most", "mean", "change", "count"},
                               "What is taken of it.");
}

}  // namespace

schema::Json words_schema(const std::string& description) {
  return Json{{"description", description},
              {"type", "object"},
              {"required", {"en"}},
              {"additionalProperties", {{"type", "string"}}}};
}

schema::Json fact_schema() {
  Json json;
  add_fact(json);
  return schema::closed_object(std::move(json), {});
}

schema::Json condition_schema() {
  Json json;
  add_fact(json);
  json["at"] = schema::text("A place: each part of it that has one is meant.");
  json["above"] = schema::text("It is not less than this.");
  json["below"] = schema::text("It is not more than this.");
  json["is"] = schema::text("It is this.");
  json["within"] = schema::text("Give or take so much.");
  json["never"] = schema::yes_or_no("No such event comes.");
  json["in"] = schema::text("Only the end of the span, so long.");
  return schema::closed_object(std::move(json), {});
}

void add_run_schema(schema::Json& json) {
  json["head"] = words_schema("Its heading.");
  json["at"] = schema::text("When it begins: a time of the scene.");
  json["to"] = schema::text("Up to when the run goes.");
  json["view"] = schema::text("building, case or part:NAME");
  json["light"] = schema::list_of(schema::text("A part that is lit."));
  json["speed"] = schema::text("Seconds of the scene to one of the wall.");
  json["stretch"] = schema::yes_or_no("Time slows by itself round what happens.");
  json["do"] = schema::list_of(schema::text("TIME PART.COMMAND [QUANTITY]"));
  json["fault"] = schema::list_of(schema::text("ID@PART[:SEVERITY][,from=TIME][,until=TIME]"));
  json["proves"] = schema::list_of(condition_schema());
}

namespace {

Json named_fact() {
  Json json;
  add_fact(json);
  json["begin"] = schema::text("When its span begins; as the step's, if nothing is said.");
  json["end"] = schema::text("When it ends.");
  return schema::closed_object(std::move(json), {});
}

Json stated() {
  Json json;
  json["words"] = schema::text("Words that hold a figure.");
  json["why"] = schema::text("Why it is no number of the run.");
  json["so"] = condition_schema();
  json["begin"] = schema::text("When the span begins in which it is so.");
  json["end"] = schema::text("When it ends.");
  return schema::closed_object(std::move(json), {"words"});
}

Json choice() {
  Json json;
  json["text"] = words_schema("The answer.");
  json["says"] = words_schema("What is said to who has chosen it.");
  json["right"] = schema::yes_or_no("It is the right one.");
  json["go"] = schema::text("Name of the step that follows.");
  return schema::closed_object(std::move(json), {"text"});
}

Json item() {
  Json json;
  json["text"] = words_schema("What happens.");
  json["event"] = schema::text("PART.KIND of event");
  return schema::closed_object(std::move(json), {"text", "event"});
}

Json model() {
  Json json;
  json["do"] = schema::list_of(schema::text("TIME PART.COMMAND [QUANTITY]"));
  json["done"] = schema::text("When the goal is reached then.");
  return schema::closed_object(std::move(json), {"do", "done"});
}

void add_stop(Json& json) {
  add_run_schema(json);
  json["name"] = schema::text("By which `go` finds it.");
  json["hints"] = schema::list_of(words_schema("A hint."));
  json["after"] = words_schema("Said when the run has come to its end.");
  json["go"] = schema::text("Name of the step that follows.");
}

Json step() {
  Json json;
  add_stop(json);
  json["show"] = words_schema("What there is to be seen.");
  json["ask"] = words_schema("What is asked before it is shown.");
  json["task"] = words_schema("What is to be brought about.");
  json["explain"] = words_schema("What is explained.");
  json["choices"] = schema::list_of(choice());
  json["number"] = schema::text("The fact that is asked for.");
  json["within"] = schema::text("How far off is right: 10 %, or a quantity.");
  json["unit"] = schema::text("In which it is asked for.");
  json["parts"] = schema::list_of(schema::text("A part that is right."));
  json["order"] = schema::list_of(item());
  json["right"] = words_schema("Said to who is right.");
  json["wrong"] = words_schema("Said to who is not.");
  json["if_right"] = schema::text("Name of the step that follows then.");
  json["if_wrong"] = schema::text("Name of the step that follows then.");
  json["goal"] = schema::list_of(condition_schema());
  json["only"] = schema::list_of(schema::text("A part that may be worked on."));
  json["keeps"] = schema::yes_or_no("What was done stays done.");
  json["model"] = model();
  json["why"] = schema::text("KIND PART @ TIME");
  return schema::closed_object(std::move(json), {});
}

}  // namespace

OtherFile lesson_schema() {
  Json json;
  json["lesson"] = words_schema("Its title.");
  json["number"] = schema::text("Its place in the course.");
  json["topic"] = words_schema("What of the trade it exercises.");
  json["scene"] = schema::text("The scene that it is of.");
  json["minutes"] = schema::text("That it takes.");
  json["facts"] = schema::named_map(named_fact());
  json["stated"] = schema::list_of(stated());
  json["steps"] = schema::list_of(step());
  json["steps"]["minItems"] = 1;
  return {"lesson",
          schema::closed_object(std::move(json), {"lesson", "topic", "scene", "steps"}).dump()};
}

}  // namespace sixty::lesson
