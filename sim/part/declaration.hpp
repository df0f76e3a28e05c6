#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/part/told.hpp"
#include "sim/part/value.hpp"

namespace sixty {

/// One parameter of a part type: everything a sheet, a slider or an error message needs.
struct ParamDecl {
  std::string name;
  ParamKind kind = ParamKind::kQuantity;
  std::string unit;  ///< SI unit of a quantity, "1" when it has none
  double least = 0, most = 0;
  Told told = Told::kPlain;
  double step = 0;  ///< only multiples of this may be given, in SI; 0: any number
  /// Texts that are times of day as people chose them: in another place they are others.
  bool chosen_times = false;
  bool required = false;  ///< no default: a sheet or the scene must give it
  Value standard;         ///< default
  std::vector<std::string> choices;
  std::vector<ParamDecl> fields;  ///< of records
  std::string help;               ///< one plain sentence
  std::string source;             ///< where the default comes from
};

/// How a reading is drawn against time.
enum class Lane : std::uint8_t {
  kNone,   ///< only where somebody asks for it
  kBar,    ///< a bar while it is yes
  kCurve,  ///< a line
  kCount   ///< a stroke each time that it changes
};

struct NamedDecl {
  std::string name;
  std::string help;
  std::string unit;  ///< of a reading's number; without, it is yes (1) or no (0)
  Lane lane = Lane::kNone;
  bool sums = false;  ///< adds up since the start, and so tells nothing of the moment
  /// Goes to and fro, or round, by itself: shown against time, and never compared at one instant.
  bool swings = false;
  Told told = Told::kPlain;
};

/// Something that a hand can do to a part.
struct CommandDecl {
  std::string name;
  std::string help;
  std::optional<ParamDecl> argument;  ///< what is written behind it; none: the command alone
  std::string sets;         ///< parameter or reading that the argument becomes; empty: none
  std::string begins_with;  ///< reading at which an argument that sets nothing is offered first
};

struct EventDecl {
  std::uint16_t kind = 0;
  std::string name;
  std::string help;
  bool step = false;   ///< the part also takes it by itself, without an event: Part::next_step
  bool heard = false;  ///< something moves: it can be heard or felt at the part
};

/// A mechanical link that this part offers to others: shared state of a kind both know.
struct LinkDecl {
  std::string name;
  std::string kind;
  std::size_t bytes = 0;  ///< 0 for a link that this part takes
  bool optional = false;
  std::string help;
};

/// Where a part stands in the master's case, on a board of 1600 by 1000 units.
struct Stand {
  enum class Where : std::uint8_t {
    kNowhere,  ///< not in the case, or not drawn
    kFixed,    ///< at a place of its own
    kOnLink,   ///< where the part says from which it takes a link
    kColumn,   ///< in the column at the right, one below the other
    kRail,     ///< on the rail at the foot, side by side
    kCorner,   ///< at the lower right
    kRoom      ///< not in the case but in a room, on the wall
  };
  Where where = Where::kNowhere;
  double x = 0, y = 0;  ///< of a fixed one
  std::string link;     ///< that one
  std::string group;    ///< parameter that names or numbers what those in rooms belong to
};

/// Everything that the rest of the program knows about a part type. Sheets, schema, error messages,
/// command names, traces and the list of parts are made from it.
class Declaration {
 public:
  std::string title;  ///< what it is, in a few words
  std::string help;   ///< what it does, one sentence

  /// Required quantity, SI unit, range. Returns *this for chaining.
  ParamDecl& quantity(std::string name, std::string unit, double least, double most,
                      std::string help);
  /// Quantity with a default (SI) and where it comes from.
  ParamDecl& quantity(std::string name, std::string unit, double standard, double least,
                      double most, std::string help,
                      std::string source = "common practice, no source");
  ParamDecl& count(std::string name, double standard, double least, double most, std::string help);
  ParamDecl& flag(std::string name, bool standard, std::string help);
  ParamDecl& choice(std::string name, std::vector<std::string> choices, std::string help);
  ParamDecl& text(std::string name, std::string standard, std::string help);
  ParamDecl& texts(std::string name, std::string help);
  ParamDecl& records(std::string name, std::vector<ParamDecl> fields, std::string help);

  void terminal(std::string name, std::string help);
  /// Numbers signals and commands in the order of declaration, from 0.
  void input(std::string name, std::string help);
  void output(std::string name, std::string help);
  void command(std::string name, std::string help);
  /// A command with a number behind it: what may be written is checked like a parameter.
  /// What it sets is told by the caller, in what is returned.
  CommandDecl& command(std::string name, std::string help, ParamDecl argument);
  /// How it is told, where its unit does not say it, is set by the caller in what is returned.
  NamedDecl& reading(std::string name, std::string unit, std::string help, Lane lane = Lane::kNone);
  /// A reading that adds up since the start.
  void sum(std::string name, std::string unit, std::string help, Lane lane = Lane::kNone);
  /// A reading that goes to and fro, or round, by itself.
  void swing(std::string name, std::string unit, std::string help);
  void event(std::uint16_t kind, std::string name, std::string help);
  /// An event in which something moves, so that it can be heard or felt at the part.
  void motion(std::uint16_t kind, std::string name, std::string help);
  /// A motion that is queued only when it matters to others: else the part steps by itself.
  void step(std::uint16_t kind, std::string name, std::string help);
  template <class LinkState>
  void offers(std::string name, std::string text) {
    offered.push_back(
        {std::move(name), LinkState::kKind, sizeof(LinkState), false, std::move(text)});
  }
  template <class LinkState>
  void takes(std::string name, std::string text, bool optional = false) {
    taken.push_back({std::move(name), LinkState::kKind, 0, optional, std::move(text)});
  }

  /// A word that people use for a kind of event when they ask: "ring" for "strikes".
  void called(std::string word, std::string kind);

  /// Names that the part's events can bear in a trace.
  std::vector<std::string> event_kinds() const;
  bool is_step(std::uint16_t kind) const;
  /// What happens in an event of that name, as a clause: "the clapper strikes the gong".
  std::string meaning_of(const std::string& kind) const;

  Stand stand;
  std::vector<ParamDecl> params;
  std::vector<NamedDecl> terminals, inputs, outputs, readings;
  std::vector<CommandDecl> commands;
  std::vector<EventDecl> events;
  std::vector<LinkDecl> offered, taken;
  std::vector<std::pair<std::string, std::string>> called_kinds;  ///< word, name of the event
};

/// The declaration of a quantity that is counted or set in steps: only multiples of `step` (SI) may
/// be given. Range: step > 0; least and most are such multiples.
ParamDecl in_steps_of(double step, ParamDecl quantity);

/// The declaration of a quantity that is a time on a twelve-hour dial, in whole minutes from twelve
/// o'clock, and may be written as one: "8:30".
ParamDecl dial_time_field(std::string name);

/// Makes field declarations for records(), and arguments of commands.
ParamDecl quantity_field(std::string name, std::string unit, double least, double most,
                         std::string help, bool required = true);
ParamDecl count_field(std::string name, double least, double most, std::string help,
                      bool required = true);
ParamDecl text_field(std::string name, std::string help, bool required = true);
ParamDecl texts_field(std::string name, std::string help, bool required = true);

/// The declaration of a list of times of day that people chose: "08:05".
ParamDecl chosen_times_field(std::string name);

}  // namespace sixty
