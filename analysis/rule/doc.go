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
// Units are SI, voltages V rms unless said. A rule names its source by the
// edition that the sheet chooses; section numbers that were not read in the text
// itself are followed by "check your edition".
package rule
