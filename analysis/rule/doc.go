// Package rule finds what is wrong or doubtful before any voltage is computed:
// protectors that do not fit the place they are in, protectors that a code asks
// for and that are missing, and nameplates that cannot be right.
//
// Each subject has a file of its own with its rules, and beside it one table of
// tests. A finding says what is wrong, why, how to mend it, by which rule
// (standard, edition, clause; "common practice, no source"), with the working
// where a number decides, and the change that mends it where that is
// mechanical. Where the sheet does not say what a rule needs, the rule is silent
// unless the missing figure itself is what makes the place unsafe to judge.
//
// A requirement of NFPA 70, and the least discharge current that goes with it, is
// an error where its section was read in a public text and the plan is not the
// first one. On the first plan, the building as found, it is a warning: the code
// counts for new work and for what is replaced, the sheet does not say when the
// building was made, and an inspector would not cite a later edition against it.
// What rests on a clause from memory is a warning on every plan, but for a
// protector that is too small for a lightning protection system: that one is
// destroyed.
//
// Every transfer switch is taken on its normal side, on whichever it is drawn:
// what codes ask for, and where an installation begins, does not depend on the
// position of the moment. Fault currents are those given, which are the highest of
// all positions.
//
// A protector of which no mode is stated meets no requirement.
//
// Units are SI, voltages V rms unless said. A rule names its source by the
// edition that the sheet chooses; section numbers that were not read in the text
// itself are followed by "check your edition".
package rule
