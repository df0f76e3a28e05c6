#include "tests/scene/fake_parts.hpp"

namespace sixty::fake {
namespace {

class CellType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "cell";
    d.quantity("emf", "V", 6, 1, 100, "Electromotive force.");
    d.quantity("resistance", "ohm", 0.5, 0.01, 10, "Resistance inside.");
    d.terminal("plus", "positive");
    d.terminal("minus", "negative");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    b.add(circuit::Source{b.node("plus"), b.node("minus"), b.number("emf"), b.number("resistance"),
                          -1});
    return std::make_unique<Part>();
  }
};

struct LampState {
  double heat = 0;
  std::int64_t lit = 0;
};

struct Lamp final : Part {
  SeenLamp seen;
  StateSlot<LampState> slot;
};

class LampType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "lamp";
    d.quantity("resistance", "ohm", 1, 1000, "Hot resistance.");
    d.quantity("heat_time", "s", 0.1, 0.01, 5, "Time to glow.");
    d.count("flashes", 1, 1, 10, "Flashes at a time.");
    d.quantity("winks", "turn", 0, 0, 12, "Turns in which it winks.").step = 1;
    d.quantity("pause", "s", 60, 0, 3600, "Whole minutes.").step = 60;
    d.flag("bright", false, "Whether it is bright.");
    d.choice("colour", {"clear", "red", "green"}, "Colour of its glass.");
    d.text("label", "", "What is written below it.");
    d.texts("tags", "Further labels.");
    d.records("marks",
              {quantity_field("at", "s", 0, 60, "When."), text_field("note", "Why.", false)},
              "Marked instants.");
    d.terminal("a", "one end");
    d.terminal("b", "other end");
    d.input("light", "lights it");
    d.command("screw_in", "a hand screws it in");
    d.command("dim", "a hand dims it", quantity_field("share", "%", 0, 100, "how far"));
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    auto lamp = std::make_unique<Lamp>();
    b.add(circuit::Resistor{b.node("a"), b.node("b"), b.number("resistance")});
    lamp->slot = b.state<LampState>();
    lamp->seen.tags = b.value("tags").items.size();
    lamp->seen.marks = b.value("marks").records.size();
    if (lamp->seen.marks > 0) lamp->seen.first_mark_s = b.value("marks").records[0][0].value.number;
    lamp->seen.colour = b.value("colour").text;
    if (b.flag("bright") && b.number("flashes") > 5)
      b.refuse("flashes", "a bright lamp flashes five times at most", "choose fewer");
    return lamp;
  }
};

class WindingType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "winding";
    d.quantity("resistance", "ohm", 80, 1, 1000, "Resistance of the wire.");
    d.terminal("a", "one end");
    d.terminal("b", "other end");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    circuit::Coil coil;
    coil.a = b.node("a");
    coil.b = b.node("b");
    coil.resistance_ohm = b.number("resistance");
    coil.magnet.inductance_h = 0.1;
    b.add(coil);
    return std::make_unique<Part>();
  }
};

struct Wheel final : Part {
  const std::vector<Rider>* riders = nullptr;
};

class WheelType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "wheel";
    d.offers<Shaft>("arbor", "what turns");
    d.output("turned", "after each turn");
    d.command("turn", "a hand turns it", quantity_field("angle", "rad", -6.5, 6.5, "how far"));
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    auto wheel = std::make_unique<Wheel>();
    wheel->riders = b.riders("arbor");
    return wheel;
  }
};

class CableType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "cable";
    d.quantity("length", "m", 0.1, 1000, "How long it is.");
    d.count("strands", 1, 1, 50, "Strands side by side.");
    d.terminal("near", "one end");
    d.terminal("far", "other end");
    d.terminal("shield", "its shield");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    b.add(circuit::Resistor{b.node("near"), b.node("far"), b.number("length") / 100});
    b.node("shield");  // which carries nothing here
    return std::make_unique<Part>();
  }
};

class BarrelType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "barrel";
    d.offers<Drive>("drum", "what pulls");
  }
  std::unique_ptr<const Part> make(Builder&) const override { return std::make_unique<Part>(); }
};

struct Finger final : Part {
  std::size_t shaft = 0, drive = 0;
};

class FingerType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "finger";
    d.takes<Shaft>("mounted_on", "shaft that it rides on");
    d.takes<Drive>("driven_by", "drive that helps it", true);
    d.input("go", "lets it go");
    d.terminal("blade", "moving side");
    d.terminal("post", "fixed side");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    auto finger = std::make_unique<Finger>();
    circuit::Contact contact;
    contact.a = b.node("blade");
    contact.b = b.inner_node();
    b.add(contact);
    b.add(circuit::Resistor{contact.b, b.node("post"), 0.1});
    b.ride("mounted_on", {99, {5, 7, 0}, {}});
    finger->shaft = b.taken<Shaft>("mounted_on").offset;
    finger->drive = b.taken<Drive>("driven_by").offset;
    return finger;
  }
};

}  // namespace

std::string lamp_sheet() {
  return "sheet: small\n"
         "part: lamp\n"
         "title: Small lamp for the bench\n"
         "values:\n"
         "  resistance: {value: 80 ohm, range: [40 ohm, 120 ohm], tolerance: 5 %, source: "
         "assumed}\n"
         "  heat_time: {value: 0.2 s, range: [0.1 s, 1 s], tolerance: 20 ms, source: assumed}\n"
         "  colour: {value: red, source: assumed}\n";
}

Registry registry_with_sheet(const std::string& text) {
  static const CellType cell;
  static const LampType lamp;
  static const WindingType winding;
  static const CableType cable;
  static const WheelType wheel;
  static const BarrelType barrel;
  static const FingerType finger;
  Registry all;
  all.add("cell", cell, "fake/cell");
  all.add("lamp", lamp, "fake/lamp");
  all.add("cable", cable, "fake/cable");
  all.add("winding", winding, "fake/winding");
  all.add("wheel", wheel, "fake/wheel");
  all.add("barrel", barrel, "fake/barrel");
  all.add("finger", finger, "fake/finger");
  all.add_sheet("lamp", "small", text, "fake/lamp/sheets/small.yaml");
  return all;
}

const Registry& registry() {
  static const Registry all = registry_with_sheet(lamp_sheet());
  return all;
}

SeenLamp seen_by(const Part& lamp) { return dynamic_cast<const Lamp&>(lamp).seen; }
const std::vector<Rider>& riders_of(const Part& wheel) {
  return *dynamic_cast<const Wheel&>(wheel).riders;
}
std::size_t shaft_offset_of(const Part& finger) {
  return dynamic_cast<const Finger&>(finger).shaft;
}
std::size_t drive_offset_of(const Part& finger) {
  return dynamic_cast<const Finger&>(finger).drive;
}

}  // namespace sixty::fake
