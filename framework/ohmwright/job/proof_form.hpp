#pragma once

#include <cstdint>
#include <string_view>

namespace ohmwright::job {

/// In which way something is not proved yet. A part that was mended where it is counts as one that was replaced.
enum class ProofForm : std::uint8_t {
  leak_to_earth,               ///< the last reading at `part`, a test point, found a way to the protective earth
  insulation_not_within,       ///< the last insulation reading of `part` is out of limits
  insulation_below_class_two,  ///< it is within those of class I, and there is no protective earth: class II asks more
  insulation_undecided,        ///< it decides nothing: read with too few volts
  leak_unexplained,    ///< `part` leaked, and insulates now though nothing was done, or it was mended and read dry
  leak_fell_away,      ///< the same of a way to the protective earth at `part`, a test point
  leak_beside,         ///< with its leads on `part` leaked, and alone it does not
  insulation_unread,   ///< `part` was replaced, and its insulation was not read since
  electronics_unread,  ///< the same of one whose electronics bear no 500 V: an ohmmeter tells all that is asked
  circuit_insulation_unread,  ///< `part`, without insulation of its own, was replaced, and none was read since
  no_insulation_read,         ///< it tingles, smells burnt or leaked, and no insulation within limits was read since
  earth_bond_not_within,      ///< the last reading of the earth bond is out of limits
  earth_bond_undecided,       ///< it decides nothing: read with too little current
  earth_bond_unread,          ///< a part was replaced, or it tingled, and the earth bond was not read since
  condemned_for_good,         ///< what opens once in `part` was condemned at `place`, and mended or read good since
  new_part_not_within,        ///< the last reading of the new `part` at `place` is out of limits
  heat_did_not_end,     ///< a forced defrost did not end by itself, none has since, and nothing was repaired since
  opened_for_good,      ///< what opens once in `part` was condemned at `place`, and no new one went in since
  part_not_within,      ///< the last reading of `part`, at `place`, is out of limits, and nothing was done to it since
  mended_unread,        ///< `part` was mended where it is, and nothing read of it since shows that the fault is gone
  insulation_unproved,  ///< something was read in it, and no insulation within limits
  earth_bond_unproved,  ///< something was read in it, and no earth bond within limits
  heat_did_not_come,    ///< a forced defrost did not heat, none passed since, and nothing was repaired since
  log_shows_fault,      ///< a log shows a fault, none is good since, and nothing was repaired since
  heat_end_unproved,    ///< a forced defrost did not end by itself before the last repair, and none has since
  heat_unproved,        ///< one did not heat before the last repair, and none passed since
  log_unproved,         ///< a log showed a fault before the last repair, and none is good since
  limit_unread,         ///< `part`, which limits the heat, went in, and was neither read good since nor seen open
  new_part_undecided,   ///< no reading of the new `part` is within limits, and the last at `place` decides nothing
  new_part_unread,      ///< `part` was read before it was replaced, and the new one was not
  cause_unlooked_for,   ///< what opens once in `part` is new, and nothing says what overheated the old one
  trip_unlooked_for,    ///< `part`, which heat opens, had tripped, and nothing says what overheated it
  forced_defrost,       ///< none failed, and none was tried after the last repair, or it decided nothing
  log,                  ///< none failed, and none from after the last repair was read, or it decides nothing
};

/// What it stands in the way of.
enum class Bars : std::uint8_t {
  nothing,                 ///< it is told
  closing_without_a_word,  ///< closing as repaired, until somebody says why it is repaired all the same
  closing,                 ///< closing as repaired; who looks for a fault must go on reading
  energising,              ///< a live step, a forced defrost, and closing as repaired
};

/// Of what it speaks beside that.
enum class ProofMatter : std::uint8_t {
  other,
  part,          ///< a part that was read bad, or of which nothing read since it went in or was mended shows its work
  failed_check,  ///< a check that failed and did not pass since
};

/// All that is said of a form. In the texts `{part}` and `{place}` are those of the step.
struct ProofRow {
  ProofForm form = ProofForm::leak_to_earth;
  Bars bars = Bars::nothing;
  ProofMatter matter = ProofMatter::other;
  /// It was found bad: nothing live is said beside it without a word, and nobody leaves it plugged in.
  bool is_danger = false;
  std::string_view sentence;
  std::string_view of_mended = {};  ///< the same of a part that was mended where it is; empty: no other
  /// How what proves it is typed. `{part}` is its id here, and `{reading}` the place and what is to be typed after it.
  std::string_view command;
};

const ProofRow& row_of(ProofForm form);

}  // namespace ohmwright::job
