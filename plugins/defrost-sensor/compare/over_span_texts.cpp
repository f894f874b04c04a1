#include "compare/over_span_texts.hpp"

namespace ohmwright::defrost_sensor::over_span {

const TextEntry same_curve{
    "same-curve", OHMWRIGHT_TEXT("From {from} to {to} it differs most at {where}: {percent} %, as much as {kelvin}. A "
                                 "good original may be {allowed} % off there.")};
const TextEntry same_curve_known_in_part{
    "same-curve-known-in-part",
    OHMWRIGHT_TEXT("From {from} to {to} it differs most at {where}: {percent} %, as much as {kelvin}. A good original "
                   "may be {allowed} % off there. Its own curve is known from {known_from} to {known_to} only; past "
                   "that it goes on as such curves do.")};
const TextEntry one_curve{"one-curve", OHMWRIGHT_TEXT("From {from} to {to} both have the same curve.")};
const Variants reads_low{
    {"reads-low",
     OHMWRIGHT_TEXT("At {where} it reads {percent} % low, as if it were {kelvin} warmer; a good original is at most "
                    "{allowed} % low there.")},
    {"reads-low-ends-early",
     OHMWRIGHT_TEXT(
         "At {where} it reads {percent} % low, as if it were {kelvin} warmer; a good original is at most {allowed} % "
         "low there. About {end}, where defrosts end, it reads low as well: the defrost would end early.")},
    {"reads-low-though-alike-at-room",
     OHMWRIGHT_TEXT(
         "At {room} it reads alike, but at {where} it reads {percent} % low, as if it were {kelvin} warmer; a "
         "good original is at most {allowed} % low there.")},
    {"reads-low-though-alike-at-room-ends-early",
     OHMWRIGHT_TEXT(
         "At {room} it reads alike, but at {where} it reads {percent} % low, as if it were {kelvin} warmer; a "
         "good original is at most {allowed} % low there. About {end}, where defrosts end, it reads low as well: the "
         "defrost would end early.")}};
const Variants reads_high{
    {"reads-high",
     OHMWRIGHT_TEXT("At {where} it reads {percent} % high, as if it were {kelvin} colder; a good original is at most "
                    "{allowed} % high there.")},
    {"reads-high-ends-late",
     OHMWRIGHT_TEXT(
         "At {where} it reads {percent} % high, as if it were {kelvin} colder; a good original is at most {allowed} % "
         "high there. About {end}, where defrosts end, it reads high as well: the defrost would end late.")},
    {"reads-high-though-alike-at-room",
     OHMWRIGHT_TEXT(
         "At {room} it reads alike, but at {where} it reads {percent} % high, as if it were {kelvin} colder; "
         "a good original is at most {allowed} % high there.")},
    {"reads-high-though-alike-at-room-ends-late",
     OHMWRIGHT_TEXT(
         "At {room} it reads alike, but at {where} it reads {percent} % high, as if it were {kelvin} colder; "
         "a good original is at most {allowed} % high there. About {end}, where defrosts end, it reads high as well: "
         "the defrost would end late.")}};
const TextEntry reads_warmer{
    "reads-warmer", OHMWRIGHT_TEXT("At {where} it reads {percent} % off, as if it were {kelvin} warmer; a good "
                                   "original is within {allowed_kelvin} there.")};
const TextEntry reads_colder{
    "reads-colder", OHMWRIGHT_TEXT("At {where} it reads {percent} % off, as if it were {kelvin} colder; a good "
                                   "original is within {allowed_kelvin} there.")};
const TextEntry far_apart{
    "far-apart", OHMWRIGHT_TEXT("At {where} it reads {candidate} where the original reads {original}: a control made "
                                "for the original would take it for {believed}.")};
const TextEntry past_everything{
    "past-everything", OHMWRIGHT_TEXT("At {where} it reads {candidate} where the original reads {original}: past "
                                      "everything that a control made for the original can read.")};
const TextEntry original_unknown{
    "original-unknown-there",
    OHMWRIGHT_TEXT("At {where} their curves lie {percent} % apart, but that of the original is known from {known_from} "
                   "to {known_to} only: in truth it may be up to {apart} %. A chart of the original would tell.")};
const TextEntry candidate_unknown{
    "candidate-unknown-there",
    OHMWRIGHT_TEXT("At {where} their curves lie {percent} % apart, but that of the new one is known from {known_from} "
                   "to {known_to} only: in truth it may be up to {apart} %. A chart of the new one would tell.")};
const TextEntry both_unknown{
    "both-unknown-there",
    OHMWRIGHT_TEXT("At {where} their curves lie {percent} % apart, but neither is known there (the original's from "
                   "{known_from} to {known_to}): in truth it may be up to {apart} %. Charts of both would tell.")};
const TextEntry rows_far_apart{
    "rows-far-apart", OHMWRIGHT_TEXT("At {where} their curves lie {percent} % apart, but the rows of a chart lie too "
                                     "far from each other there: in truth it may be up to {apart} %. A fuller chart "
                                     "would tell.")};

}  // namespace ohmwright::defrost_sensor::over_span
