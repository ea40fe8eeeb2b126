package details

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// topic is what a working is of, as its button says.
type topic string

const (
	surgeTopic topic = "Surge"
	riskTopic  topic = "Need for protection"
	faultTopic topic = "Fault current"
)

// selection is what is selected, with the results that say something of it.
type selection struct {
	doc   *diagram.Document
	state State
	part  diagram.ID // selected, or the one that the selected protector is on
}

// explained tells of what a view shows figures. The zero value stands for
// nothing.
type explained struct {
	bus        diagram.ID
	result     *analysis.Result
	convention unit.Convention
}

// key tells what the working shows. The zero value stands for nothing.
type key struct {
	explained
	sure      bool // with a band
	elsewhere bool
	exposure  diagram.Exposure // of a supply, and by which rules the need for protection is found
	codes     diagram.Codes
}

func (s selection) key() key {
	if s.part == "" || s.state.Result == nil {
		return key{}
	}
	_, sure := s.state.Bands[s.part]
	out := key{explained: explained{s.part, s.state.Result, s.state.Convention}, sure: sure, elsewhere: s.state.elsewhere()}
	if part, ok := s.supply(); ok {
		out.exposure, out.codes = part.Exposure, s.doc.Info().Codes
	}
	return out
}

// topics returns what can be explained, in the order of the buttons.
func (s selection) topics() []topic {
	var out []topic
	if s.part == "" || s.state.Result == nil || s.state.elsewhere() {
		return nil
	}
	if len(s.state.Result.Buses[s.part].Levels) > 0 {
		out = append(out, surgeTopic)
	}
	if _, ok := s.supply(); ok && s.doc.FollowsIEC() {
		out = append(out, riskTopic)
	}
	if s.state.ExplainFault != nil && slices.ContainsFunc(faultsOf(s.doc, s.state.Result, s.part), func(f analysis.Fault) bool { return f.Known }) {
		out = append(out, faultTopic)
	}
	return out
}

// explain makes the working of a topic, which is dear.
func (s selection) explain(t topic) (explanation, bool) {
	switch t {
	case surgeTopic:
		return s.explainSurge()
	case riskTopic:
		return s.explainNeed()
	case faultTopic:
		return s.explainFault()
	}
	return explanation{}, false
}

func (s selection) explainSurge() (explanation, bool) {
	bus, ok := s.state.Explain(s.part)
	if !ok || len(bus.Levels) == 0 {
		return explanation{}, false
	}
	out := explanation{about: fmt.Sprintf("%s, by the %s", s.doc.NameOf(s.part), s.state.Result.Basis)}
	if s.state.Result.Basis == analysis.HandRule {
		out.about += ", for surges from the supply"
	}
	band, sure := s.state.Bands[s.part]
	for _, level := range bus.Levels {
		if sure && level.Mode == band.Mode {
			level.Working = append(slices.Clone(level.Working), band.Working(s.doc)...)
		}
		out.figures = append(out.figures, figure{level.Mode.String(), levelText(level, s.state.Convention), unit.Words(level.Why, s.state.Convention), level.Working})
	}
	return out, true
}

// levelText is one mode in a line: "L-G  1 240 V, 31 % of 4 000 V: Held".
func levelText(l analysis.Level, c unit.Convention) string {
	out := unit.ModeWord(l.Mode.String(), c) + "  "
	if l.Known {
		out += unit.Format(l.Volts, unit.Voltage, c)
	} else {
		out += "no figure"
	}
	if percent, ok := l.Percent(); ok && l.Judged {
		out += fmt.Sprintf(", %.0f %% of %s", percent, unit.Format(l.Withstand, unit.Voltage, c))
	}
	if !l.Judged {
		return out + ": not evaluated"
	}
	return out + ": " + l.Verdict.String()
}

// supply returns the selected supply, and false where something else is
// selected.
func (s selection) supply() (diagram.Part, bool) {
	part, ok := s.doc.Part(s.part)
	return part, ok && part.Kind == diagram.Supply
}

// explainNeed tells whether the building of a supply needs protection by the
// rules of IEC, and the risk level where that decides.
func (s selection) explainNeed() (explanation, bool) {
	part, ok := s.supply()
	if !ok {
		return explanation{}, false
	}
	need := analysis.NeedsProtection(part.Exposure, s.doc.Info().Codes.Risk)
	words := "Protection is not needed"
	if need.Needed {
		words = "Protection is needed"
	}
	last := analysis.Step{Label: "need for protection", Text: words, Source: need.Source}
	return explanation{
		about:   s.doc.NameOf(s.part) + ", by its exposure",
		figures: []figure{{why: ended(words + ": " + unit.Words(need.Why, s.state.Convention)), working: append(slices.Clone(need.Working), last)}},
	}, true
}

// explainFault makes the working of each terminal; that toward the loads stands
// first.
func (s selection) explainFault() (explanation, bool) {
	method := diagram.FieldOf(diagram.InfoFields(), "codes.fault").Spoken(string(cmp.Or(s.doc.Info().Codes.Fault, diagram.ComplexSum)), s.state.Convention)
	out := explanation{about: fmt.Sprintf("%s, %s", s.doc.NameOf(s.part), method)}
	for _, known := range slices.Backward(faultsOf(s.doc, s.state.Result, s.part)) {
		f, ok := s.state.ExplainFault(known.At)
		if !ok || !f.Known {
			continue
		}
		out.figures = append(out.figures, figure{string(f.At.Port), terminalText(f, s.state.Convention), faultWhy(f, s.state.Convention), f.Working})
	}
	if len(out.figures) == 1 {
		out.figures[0].line = ""
	}
	return out, len(out.figures) > 0
}

// terminalText is the fault current of one terminal in a line: "Secondary
// 8.2 kA, three-phase".
func terminalText(f analysis.Fault, c unit.Convention) string {
	return terminalWord(f.At.Port) + "  " + highestText(f, c)
}
