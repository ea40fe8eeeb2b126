package edit

import (
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// Status returns one line: why the last thing was not done, or what the tool
// waits for, or what is selected.
func (e *Editor) Status() string {
	if e.notice != "" {
		return e.notice
	}
	return e.tool.status(e)
}

// describe names records within a sentence: "Panel 3", "3 parts".
func (e *Editor) describe(ids []diagram.ID) string {
	if len(ids) == 1 {
		return e.describeOne(ids[0])
	}
	counts := [4]int{}
	for _, id := range ids {
		counts[e.sortOf(id)]++
	}
	for sort, noun := range [3]string{"parts", "feeders", "protectors"} {
		if counts[sort] == len(ids) {
			return fmt.Sprintf("%d %s", len(ids), noun)
		}
	}
	return fmt.Sprintf("%d things", len(ids))
}

// sortOf returns 0 for a part, 1 for a feeder, 2 for a protector, 3 for what
// is none of them.
func (e *Editor) sortOf(id diagram.ID) int {
	if _, ok := e.doc.Part(id); ok {
		return 0
	}
	if _, ok := e.doc.Feeder(id); ok {
		return 1
	}
	if _, ok := e.doc.Protector(id); ok {
		return 2
	}
	return 3
}

func (e *Editor) describeOne(id diagram.ID) string {
	if feeder, ok := e.doc.Feeder(id); ok && feeder.Name == "" {
		return "feeder from " + e.doc.NameOf(feeder.From.Part) + " to " + e.doc.NameOf(feeder.To.Part)
	}
	if protector, ok := e.doc.Protector(id); ok && protector.Name == "" {
		return "protector on " + e.doc.NameOf(protector.Bus)
	}
	return e.doc.NameOf(id)
}

// describeSelection says what is selected.
func (e *Editor) describeSelection() string {
	switch len(e.selected) {
	case 0:
		return "Nothing selected"
	case 1:
		return strings.Join(append([]string{title(e.describeOne(e.selected[0]))}, e.facts(e.selected[0])...), " · ")
	}
	return e.describe(e.selected) + " selected"
}

// facts returns what else the line about a selected record says.
func (e *Editor) facts(id diagram.ID) []string {
	if part, ok := e.doc.Part(id); ok {
		facts := []string{string(part.Kind)}
		if part.System.Known() {
			facts = append(facts, part.System.String())
		}
		return facts
	}
	if feeder, ok := e.doc.Feeder(id); ok {
		facts := []string{unit.Format(feeder.Length, unit.Length, e.options.Scene.Convention)}
		if feeder.Switch.Open {
			facts = append(facts, "open")
		}
		return facts
	}
	protector, _ := e.doc.Protector(id)
	if protector.Type == "" {
		return nil
	}
	return []string{string(protector.Type)}
}
