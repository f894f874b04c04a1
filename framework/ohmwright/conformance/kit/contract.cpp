#include <array>

#include <ohmwright/conformance/kit/contract.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

constexpr std::array all_contracts{
    Contract{"repeatability", OHMWRIGHT_TEXT("the same readings give the same verdict"), breaches_of_repeatability},
    Contract{"records", OHMWRIGHT_TEXT("judged in a child process through JSON, the verdict is equal"),
             breaches_of_records},
    Contract{"reasons", OHMWRIGHT_TEXT("no verdict without a reason"), breaches_of_reasons},
    Contract{"speaking", OHMWRIGHT_TEXT("every rule speaks, or says why it is silent"), breaches_of_speaking},
    Contract{"fields", OHMWRIGHT_TEXT("every sentence gets its figures"), breaches_of_fields},
    Contract{"nothing-read", OHMWRIGHT_TEXT("nothing read, nothing decided"), breaches_of_nothing_read},
    Contract{"circuit", OHMWRIGHT_TEXT("a reading in circuit never makes a pass"), breaches_of_circuit},
    Contract{"alone", OHMWRIGHT_TEXT("good alone and open in circuit, it is not condemned"), breaches_of_reading_alone},
    Contract{"range", OHMWRIGHT_TEXT("OL on the lowest range of ohms neither passes nor condemns"), breaches_of_range},
    Contract{"doubling", OHMWRIGHT_TEXT("a reading typed twice makes nothing surer"), breaches_of_doubling},
    Contract{"outlier", OHMWRIGHT_TEXT("one reading far off is never passed over"), breaches_of_outlier},
    Contract{"contradiction", OHMWRIGHT_TEXT("OL behind good ohms is never passed over"), breaches_of_contradiction},
    Contract{"not-a-number", OHMWRIGHT_TEXT("what is not a number is never a pass"), breaches_of_not_a_number},
    Contract{"numbers", OHMWRIGHT_TEXT("no finding contradicts its own numbers"), breaches_of_numbers},
    Contract{"models", OHMWRIGHT_TEXT("its electrical models and expected readings can be used"), breaches_of_models},
    Contract{"good-parts", OHMWRIGHT_TEXT("what its electrical model calls good is not condemned"),
             breaches_of_good_parts, why_no_good_part_was_tried},
    Contract{"likeness", OHMWRIGHT_TEXT("a part stands in for itself"), breaches_of_likeness},
    Contract{"threads", OHMWRIGHT_TEXT("several threads at once get the same verdicts"), breaches_of_threads},
    Contract{"calibration", OHMWRIGHT_TEXT("a stated probability is the share of good parts"), breaches_of_calibration},
    Contract{"memory", OHMWRIGHT_TEXT("judging again and again keeps no memory"), breaches_of_memory},
};

}  // namespace

std::span<const Contract> contracts() { return all_contracts; }

}  // namespace ohmwright
