package unit

import (
	"strconv"
	"strings"
)

// CountOf writes a number with its noun: "1 part", "3 parts". A noun whose plural
// is made otherwise has it behind a |: "bus|buses".
func CountOf(n int, noun string) string {
	one, many, irregular := strings.Cut(noun, "|")
	switch {
	case n == 1:
		return "1 " + one
	case irregular:
		return strconv.Itoa(n) + " " + many
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// NamesInSentence bounds how many names a sentence spells out.
const NamesInSentence = 6

// Names lists names as a sentence does: "A, B and C", or "A, B and 7 more" where
// there are more than NamesInSentence.
func Names(names []string) string {
	if len(names) > NamesInSentence {
		rest := len(names) - NamesInSentence + 1
		names = append(names[:NamesInSentence-1:NamesInSentence-1], strconv.Itoa(rest)+" more")
	}
	return List(names, "and")
}

// List joins words by commas, the last one by a word such as "and": "A, B and C".
func List(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	end := len(words) - 1
	return strings.Join(words[:end], ", ") + " " + last + " " + words[end]
}

// EarthWord returns what the convention calls the conducting mass of the
// earth and what is bonded to it: "ground" or "earth".
func EarthWord(c Convention) string {
	if c == IEC {
		return "earth"
	}
	return "ground"
}

// ModeWord returns the name of a protection mode such as "L-G", "N-G", "L-N" or
// "L-L" in the convention: in IEC the protective conductor is PE, so "L-G" is
// "L-PE" and "N-G" is "N-PE". Any other mode is returned as it is.
func ModeWord(mode string, c Convention) string {
	if c != IEC {
		return mode
	}
	switch mode {
	case "L-G":
		return "L-PE"
	case "N-G":
		return "N-PE"
	}
	return mode
}
