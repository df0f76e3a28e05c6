#pragma once

#include <map>
#include <optional>
#include <string>

#include "sim/scene/draft.hpp"
#include "sim/scene/fault.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// An action as it is kept in a file, without its time:
///   part.command QUANTITY                          what a hand does
///   put FAULT@PART:SEVERITY, course=COURSE         a fault; `clear` takes it away
///   lay on PART.TERMINAL to PART.TERMINAL, 1e6 ohm a meter; `take off` takes it away
///   lay on PART.TERMINAL in series, 0.1 ohm        the same in the wire of a terminal
std::string action_text(const Action& action, const Installation& installation);

/// Reads actions of one installation back. Order: as they are in the file, since a meter is taken
/// off that was laid on before.
class ActionReader {
 public:
  ActionReader(const Installation& installation, const Registry& registry, Mistakes& mistakes);
  /// `time` is a TIME of the scene. Errors: nothing, reported at their places.
  std::optional<Action> read(const Written& time, const Written& action);

 private:
  std::optional<Action> read_hand(const Written& time, const Written& action);
  std::optional<Action> read_fault(const Written& time, const Written& action, bool clears);
  std::optional<Action> read_meter(const Written& time, const Written& action, bool clears);
  std::optional<Terminal> read_terminal(const std::string& text, const Written& whole);
  std::nullopt_t refuse(const Written& written, const std::string& what,
                        const std::string& expected, const std::string& mend);

  const Installation& installation_;
  Mistakes& mistakes_;
  FaultBook faults_;
  Draft draft_;  ///< of the installation, with the one action that is being read
  std::map<std::string, std::shared_ptr<const Hookup>> laid_on_;
};

}  // namespace sixty::gui
