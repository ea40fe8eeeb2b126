package rule

import (
	"slices"
	"strconv"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// placeUsual returns the change that places the usual protector on each of the
// hosts that has none which the test accepts by then; alter, where it is not
// nil, makes of the usual one what the rule asks for. There is no such change
// where the usual protector of a host is not known.
func (s *sheet) placeUsual(accept func(diagram.Protector) bool, alter func(*diagram.Protector), hosts ...*analysis.Node) analysis.Mend {
	var names []string
	usual := map[diagram.ID]diagram.Protector{}
	for _, node := range hosts {
		host, _ := s.Document.Part(node.At.Part)
		protector, ok := usualFor(node.System)
		if !ok || !host.Kind.TakesProtector() {
			return analysis.Mend{}
		}
		if alter != nil {
			alter(&protector)
		}
		protector.Plan, protector.Bus = s.Plan, host.ID
		usual[host.ID] = protector
		names = append(names, s.Document.NameOf(host.ID))
	}
	return analysis.Mend{Label: "place the usual protector on " + inSentence(names), Apply: func(tx *diagram.Tx) error {
		for _, node := range hosts {
			placeOne(tx, usual[node.At.Part], accept)
		}
		return nil
	}}
}

// placeOne adds the protector under an id and a name that nothing has, unless
// its part or plan is gone or what stands there will do.
func placeOne(tx *diagram.Tx, protector diagram.Protector, accept func(diagram.Protector) bool) {
	doc := tx.Document()
	host, ok := doc.Part(protector.Bus)
	if !ok || !host.Kind.TakesProtector() {
		return
	}
	if _, ok := doc.Plan(protector.Plan); !ok {
		return
	}
	for other := range doc.ProtectorsOf(protector.Plan) {
		if other.Bus == protector.Bus && accept(other) {
			return
		}
	}
	protector.ID, protector.Name = tx.NewProtectorID(), doc.NewProtectorName(protector.Plan)
	tx.SetProtector(protector)
}

// usualFor returns the usual protector for a system, and whether its ratings
// are known.
func usualFor(system diagram.System) (diagram.Protector, bool) {
	protector := analysis.TypicalProtector(system)
	connected := slices.ContainsFunc(protector.Modes[:], func(r diagram.ModeRating) bool { return r.Connected })
	return protector, connected
}

// namesInSentence bounds how many names a sentence spells out.
const namesInSentence = 6

// inSentence joins names as a sentence does: "A, B and C", or "A, B and 7 more".
func inSentence(names []string) string {
	if len(names) > namesInSentence {
		rest := len(names) - namesInSentence + 1
		names = append(names[:namesInSentence-1:namesInSentence-1], strconv.Itoa(rest)+" more")
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
