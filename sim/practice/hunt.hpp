#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/diagnose/check.hpp"
#include "sim/diagnose/next_check.hpp"
#include "sim/diagnose/ranking.hpp"
#include "sim/practice/case.hpp"

namespace sixty::practice {

/// What a deed was worth, told at once. Source of the kinds: D. Gitomer, L. Steinberg & R. Mislevy,
/// ETS RR-94-21 (1994), names recalled; of the bounds: judgement.
enum class Worth : std::uint8_t {
  kSplits,     ///< it takes away at least six tenths of what the best check would
  kHelps,      ///< less
  kOneByOne,   ///< less than half, and of one part alone
  kNothing,    ///< under 0.02 bit: it could change nothing
  kHarmful,    ///< dangerous, where a safe one tells as much
  kPremature,  ///< worked at with less than an even chance of being right
  kNotIt,      ///< worked at with good reason, and yet it was sound
  kMended,     ///< it was the matter
  kHolds,      ///< the cure was checked, and all is right
  kStillWrong  ///< it was checked, and something still is not
};
const char* sentence_of(Worth worth);

/// Something that was done to find or mend what is the matter.
struct Deed {
  enum class Kind : std::uint8_t { kCheck, kQuestion, kMend, kProve };
  Kind kind = Kind::kCheck;
  std::string what;                         ///< in words
  std::string part;                         ///< may be empty
  double minutes = 0, harm = 0;             ///< harm: risk of it, as minutes of work
  double expected_bits = 0, best_bits = 0;  ///< of a check, and of the best then
  double found_bits = 0;                    ///< entropy that it took away
  double p_true = 0;                        ///< of what is the matter, once it was done
  Worth worth = Worth::kHelps;
  std::vector<std::string> found;  ///< what was noticed, in sentences
};

/// How a hunt went.
struct Score {
  bool mended = false, proved = false;  ///< all of it; and afterwards seen to be right
  double minutes = 0, harm = 0;
  std::size_t needless = 0;  ///< checks that could change nothing
  std::size_t harmful = 0;
  std::size_t good_parts = 0;  ///< worked at in vain
  std::size_t premature = 0;   ///< of these, without evidence
  /// Deeds, when nine in ten spoke for it; 0: by the reports alone; none: never.
  std::optional<std::size_t> sufficed_after;
};

/// One learner and one case: what is known, what is done, and what each thing was worth.
class Hunt {
 public:
  /// Order: library and checks outlive it.
  Hunt(const diagnose::Library& library, const diagnose::CheckBook& checks, Case hidden);

  /// What was noticed and found so far.
  const std::vector<diagnose::Observation>& known() const { return known_; }
  /// Every check that could be made now.
  std::vector<diagnose::Proposal> checks() const;
  /// Those worth most, the best first.
  std::vector<diagnose::Proposal> best_checks(std::size_t most) const;
  const diagnose::Ranking& ranking() const { return ranking_; }

  /// Makes a check, or asks people where it is one that asks.
  const Deed& check(const diagnose::Proposal& proposal);
  /// Works at a part as for that fault, or puts another in its place.
  const Deed& mend(std::size_t suspect);
  /// Two whole minutes and a ring are watched: whether all goes right now.
  const Deed& prove();

  const std::vector<Deed>& deeds() const { return deeds_; }
  bool is_mended() const { return left_.hidden.empty(); }
  bool is_over() const { return is_mended() && proved_; }
  Score score() const;
  const Case& hidden() const { return hidden_; }
  const diagnose::Library& library() const { return library_; }

 private:
  bool is_same(std::size_t suspect, std::size_t truth) const;
  double p_true() const;
  void weigh();
  double expected_bits(const diagnose::Proposal& proposal) const;
  void take_found(Deed& deed, std::vector<diagnose::Observation> found);
  Worth worth_of(const diagnose::Proposal& made, double best_bits) const;

  const diagnose::Library& library_;
  const diagnose::CheckBook& checks_;
  Case hidden_, left_;               ///< left: of it what has not been mended
  std::vector<std::size_t> groups_;  ///< of suspects that nothing tells apart
  std::vector<diagnose::Observation> known_;
  std::vector<std::size_t> sound_;  ///< suspects that it is not, since work at them changed nothing
  diagnose::Ranking ranking_;
  std::vector<Deed> deeds_;
  bool proved_ = false, is_other_ = false;  ///< other: something was mended since people told
  double p_true_at_first_ = 0;
};

/// The suspect that is likeliest, alone or as one of two, and how likely it is.
std::optional<std::pair<std::size_t, double>> likeliest(const diagnose::Ranking& ranking);

/// Plays a case to its end as the program would: the check that is worth most as long as it is
/// worth its cost, else work at the likeliest, then the proof.
void play_best(Hunt& hunt);

}  // namespace sixty::practice
