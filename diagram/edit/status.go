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
	if e.glance != nil {
		return fmt.Sprintf("While %s is held: %s", KeyGlance, e.nameOf(e.plan))
	}
	return e.tool.status(e)
}

// setNotice sets why the last thing was not done, or that all is well again.
func (e *Editor) setNotice(text string) {
	if text != e.notice {
		e.notice = text
		e.overlayChanged()
	}
}

// nameLength is how many characters of a name stand in a line or a label.
const nameLength = 40

// nameOf returns what a person calls the record, on one line and not too long
// for it.
func (e *Editor) nameOf(id diagram.ID) string {
	name := []rune(strings.Join(strings.Fields(e.doc.NameOf(id)), " "))
	switch {
	case len(name) == 0:
		return string(id)
	case len(name) > nameLength:
		return string(name[:nameLength-1]) + "…"
	}
	return string(name)
}

// describe names records within a sentence: "Panel 3", "3 parts".
func (e *Editor) describe(ids []diagram.ID) string {
	if len(ids) == 1 {
		return e.describeOne(ids[0])
	}
	return fmt.Sprintf("%d %s", len(ids), e.nounOf(ids))
}

// nounOf names what all of the records are.
func (e *Editor) nounOf(ids []diagram.ID) string {
	noun := ""
	for _, id := range ids {
		own := e.sortOf(id)
		if noun != "" && own != noun {
			return "things"
		}
		noun = own
	}
	return noun
}

func (e *Editor) sortOf(id diagram.ID) string {
	if _, ok := e.doc.Part(id); ok {
		return "parts"
	}
	if _, ok := e.doc.Feeder(id); ok {
		return "feeders"
	}
	if _, ok := e.doc.Protector(id); ok {
		return "protectors"
	}
	return "things"
}

func (e *Editor) describeOne(id diagram.ID) string {
	if words, ok := e.describeNameless(id); ok {
		return words
	}
	return e.nameOf(id)
}

// describeNameless says what a feeder or protector without a name is, and
// false for all else.
func (e *Editor) describeNameless(id diagram.ID) (string, bool) {
	if feeder, ok := e.doc.Feeder(id); ok && feeder.Name == "" {
		return "feeder from " + e.nameOf(feeder.From.Part) + " to " + e.nameOf(feeder.To.Part), true
	}
	if protector, ok := e.doc.Protector(id); ok && protector.Name == "" {
		return "protector on " + e.nameOf(protector.Bus), true
	}
	return "", false
}

// describeSelection says what is selected.
func (e *Editor) describeSelection() string {
	switch len(e.selected) {
	case 0:
		return "Nothing selected"
	case 1:
		id := e.selected[0]
		words, ok := e.describeNameless(id)
		if ok {
			words = unit.SentenceCase(words)
		} else {
			words = e.nameOf(id)
		}
		return strings.Join(append([]string{words}, e.facts(id)...), " · ")
	}
	return e.describe(e.selected) + " selected"
}

// facts returns what else the line about a selected record says.
func (e *Editor) facts(id diagram.ID) []string {
	if part, ok := e.doc.Part(id); ok {
		facts := []string{string(part.Kind)}
		if part.System.Known() {
			facts = append(facts, unit.Terms(part.System.String(), e.options.Scene.Convention))
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
	var facts []string
	if protector.Type != "" {
		facts = append(facts, string(protector.Type))
	}
	return append(facts, e.ChangesOf(id)...)
}
