#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <ohmwright/locate/prober.hpp>
#include <ohmwright/locate/signs.hpp>

namespace ohmwright::locate {

/// A reading as it was taken.
struct TakenReading {
  Measurement measurement;
  Observed observed;
  std::string label;                       ///< how messages call it
  std::string note = {};                   ///< what else was seen, by whoever read it
  std::optional<SeenReading> any_of = {};  ///< of a plan: some reading of this class, in place of `observed`
  std::optional<AnyQuantity> range = {};  ///< that was set on the meter; empty: the meter's own choice, or nobody knows
};

class Learnt;
struct WeighedReading;

/// What is believed after the evidence.
struct Diagnosis {
  std::vector<double> candidates;      ///< probability of each of `FaultList::candidates`
  std::vector<double> parts;           ///< probability that the part has a fault
  std::vector<double> outside_causes;  ///< probability of each of `Appliance::outside_causes`
  double nothing_wrong = 0.0;          ///< probability that nothing of all this is wrong
  std::vector<double> misread;         ///< by reading: probability that nothing modelled explains it
  double log_evidence = 0.0;           ///< of the readings: natural logarithm of how likely it was to see them
  bool sealed_system = false;          ///< the signs speak of the refrigerant circuit: stop here

  /// Whether a reading is more likely misread than meant.
  bool is_unexplained(std::size_t reading) const { return misread[reading] > 0.5; }
};

/// Fills in what follows from `diagnosis.candidates`: the probabilities of parts, outside causes and of nothing wrong.
void sum_up(const FaultList& faults, Diagnosis& diagnosis);

/// Of the candidates with exactly these parts at fault and that outside cause, the likeliest after a diagnosis: index
/// into `FaultList::candidates`. There is one.
std::size_t likeliest_candidate(const FaultList& faults, const Diagnosis& diagnosis, std::span<const std::size_t> parts,
                                std::optional<std::size_t> outside_cause);

/// Reasons about one appliance from readings and signs. Keeps what it predicted, so that a reading more is cheap.
/// Belongs to one thread.
class Reasoner {
 public:
  /// `prober` must outlive the reasoner.
  explicit Reasoner(Prober& prober, const SignModel& signs = {});
  Reasoner(const Reasoner&) = delete;
  Reasoner& operator=(const Reasoner&) = delete;
  ~Reasoner();

  /// The order of the readings does not matter. Readings of one measurement that agree are one reading, since their
  /// errors are the same; those that do not are weighed one by one: what comes and goes explains them.
  Diagnosis diagnose(std::span<const TakenReading> readings, const Signs& signs);
  /// The same of other readings or signs, only to see what would be believed: the last diagnosis remains the last.
  Diagnosis suppose(std::span<const TakenReading> readings, const Signs& signs);

  /// An instance and its probability in the last diagnosis.
  struct Weighed {
    std::size_t instance = 0;
    double probability = 0.0;
  };
  /// The likeliest instances of the last diagnosis, most likely first, at most `most`.
  std::vector<Weighed> likeliest(std::size_t most) const;

  /// What the readings of the last diagnosis teach, if an instance is true.
  Learnt learnt(std::size_t instance);
  /// What the instance predicts of each reading of the last diagnosis. Those that predict the same learnt the same.
  std::vector<const std::vector<PredictedOutcome>*> predicted_of_readings(std::size_t instance);

  /// The first instance of a candidate, an index into `FaultList::candidates`.
  std::size_t first_instance(std::size_t candidate) const;
  const Instance& instance(std::size_t index) const { return instances_[index]; }
  std::size_t instances() const { return instances_.size(); }
  /// The ways a measurement may come out of an instance. One address, one prediction (`Prober::predict`).
  const std::vector<PredictedOutcome>& predicted(std::size_t instance, const Measurement& measurement);

  /// The same for many instances, the measurement looked up once. Valid as long as the reasoner.
  class Predicted {
   public:
    const std::vector<PredictedOutcome>& of(std::size_t instance) {
      const std::vector<PredictedOutcome>*& kept = (*of_all_)[instance];
      if (kept == nullptr) kept = &reasoner_->prober_.predict(reasoner_->instances_[instance], measurement_);
      return *kept;
    }

   private:
    friend class Reasoner;
    Predicted(Reasoner& reasoner, const Measurement& measurement,
              std::vector<const std::vector<PredictedOutcome>*>& of_all)
        : reasoner_(&reasoner), measurement_(measurement), of_all_(&of_all) {}

    Reasoner* reasoner_;
    Measurement measurement_;
    std::vector<const std::vector<PredictedOutcome>*>* of_all_;
  };
  Predicted predicted(const Measurement& measurement);

  /// Whether a reading after that set-up says the same as one as found, whatever single fault is there.
  bool says_the_same(std::size_t test_point, std::size_t set_up);

  Prober& prober() { return prober_; }
  const SignModel& sign_model() const { return sign_model_; }
  const FaultList& faults() const { return prober_.faults(); }

 private:
  using PredictionsOfAll = std::vector<const std::vector<PredictedOutcome>*>;  ///< by instance, null: not asked yet

  /// What the last diagnosis left behind.
  struct Weighing {
    std::vector<double> weights;  ///< by instance
    bool trip_was_told = false;
    std::vector<WeighedReading> readings;  ///< those that are only planned behind the others
  };

  void weigh_signs(const Signs& signs);
  void weigh(std::size_t from, std::size_t to, double negligible_share, Diagnosis& diagnosis);
  void weigh_readings(std::span<const TakenReading> readings, Diagnosis& diagnosis);

  Prober& prober_;
  SignModel sign_model_;
  std::vector<Instance> instances_;
  std::vector<std::size_t> candidate_of_;  ///< by instance
  Weighing last_;
  std::map<std::tuple<std::size_t, std::size_t, bool>, PredictionsOfAll> predictions_;
  std::map<std::pair<std::size_t, std::size_t>, bool> same_;  ///< by test point and set-up
};

}  // namespace ohmwright::locate
