package analysis

import (
	"fmt"
	"strings"

	"clampline/diagram"
)

// namesInSentence bounds how many names a sentence spells out.
const namesInSentence = 6

func nameOr(name string, id diagram.ID) string {
	if name == "" {
		return string(id)
	}
	return name
}

func nameOf(part *diagram.Part) string { return nameOr(part.Name, part.ID) }

// List joins names as a sentence does: "A, B and C", or "A, B and 7 more".
func List(names []string) string {
	if len(names) > namesInSentence {
		rest := len(names) - namesInSentence + 1
		names = append(names[:namesInSentence-1:namesInSentence-1], fmt.Sprintf("%d more", rest))
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// countOf writes a number with its noun: "1 part", "3 parts".
func countOf(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
