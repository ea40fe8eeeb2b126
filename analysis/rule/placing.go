package rule

import (
	"fmt"
	"sync"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// placeUsual returns the change that places a protector on each of the hosts that
// has none which the test accepts by then: one of the library that fits, or where
// there is none the usual one; alter, where it is not nil, makes of the usual one
// what the rule asks for. There is no such change where for a host neither is
// known.
func (s *sheet) placeUsual(accept func(diagram.Protector) bool, alter func(*diagram.Protector), hosts ...*analysis.Node) analysis.Mend {
	var names []string
	var openings []*opening
	for _, node := range hosts {
		o := s.openingOn(node, accept, alter)
		if o == nil || !o.possible() {
			return analysis.Mend{}
		}
		openings, names = append(openings, o), append(names, s.Document.NameOf(o.part.ID))
	}
	if len(openings) == 0 {
		return analysis.Mend{}
	}
	return placeMend(unit.Names(names), openings[0].part.ID, func() []*opening { return openings })
}

// placeMend is the change that places a protector in each of the openings, of
// which the first is on the host. They are asked for when it is made or chosen.
func placeMend(name string, host diagram.ID, wanted func() []*opening) analysis.Mend {
	out := analysis.NewMend("place a protector on …", name, func(tx *diagram.Tx) error {
		for _, o := range wanted() {
			if !o.possible() {
				return fmt.Errorf("nothing is placed on %s: neither the library nor a usual protector fits there; see what a fitting one lacks in the library", name)
			}
			placeOne(tx, o.best(), o.accept)
		}
		return nil
	})
	out.Opening = analysis.Opening{Bus: host}
	out.Choices = func(own []library.Entry) []analysis.Choice { return placings(wanted(), own, out.Kind, name) }
	return out
}

// Placer returns the changes that place a protector on a part: one that fits there
// and that the test accepts. There is none where the part takes none, or where the
// library has none and no usual one will do. It is a function, since most of the
// work is the same for every part, and not for several goroutines at a time. What
// fits is found when the change is made: here it is enough that the test accepts
// the usual one.
func Placer(in Input) func(part diagram.ID, accept func(diagram.Protector) bool) analysis.Mend {
	s := newSheet(in)
	return func(part diagram.ID, accept func(diagram.Protector) bool) analysis.Mend {
		host, _ := s.Document.Part(part)
		node := s.Topology.Node(host)
		if node == nil || !host.Kind.TakesProtector() {
			return analysis.Mend{}
		}
		if usual, ok := s.usualOn(host, node); ok && accept(usual) {
			return placeMend(s.Document.NameOf(part), part, sync.OnceValue(func() []*opening {
				return []*opening{s.openingOn(node, accept, nil)}
			}))
		}
		return s.placeUsual(accept, nil, node)
	}
}

// openingOn returns the opening for another protector on a part, or nil where the
// part takes none.
func (s *sheet) openingOn(node *analysis.Node, accept func(diagram.Protector) bool, alter func(*diagram.Protector)) *opening {
	host, _ := s.Document.Part(node.At.Part)
	p := s.placeOf(host)
	if p == nil || !host.Kind.TakesProtector() {
		return nil
	}
	counts := func(q diagram.Protector) bool { return accept(q) && s.bears(q) } // as counting has it
	o := &opening{place: p, accept: counts, against: func(x analysis.Finding) bool { return x.Severity >= analysis.Warning }}
	usual, ok := s.usualOn(host, node)
	if !ok {
		return o
	}
	usual.SCCR = stepFrom(p.available().current)
	if alter != nil {
		alter(&usual)
	}
	o.offer(usual)
	return o
}

// usualOn returns the protector that is usual on a part, put there.
func (s *sheet) usualOn(host diagram.Part, node *analysis.Node) (diagram.Protector, bool) {
	out, ok := s.usualFor(host, node.System)
	out.Plan, out.Bus = s.Plan, host.ID
	return out, ok && node.System.Known()
}

// placings returns the entries that fit all of the openings, each with the
// change that places it there.
func placings(openings []*opening, own []library.Entry, kind, name string) []analysis.Choice {
	stand := map[diagram.ID][]diagram.Protector{} // by entry, on as many openings as it fits
	for _, o := range openings {
		for _, c := range o.candidates(own) {
			stand[c.entry.Protector.ID] = append(stand[c.entry.Protector.ID], c.protector)
		}
	}
	var out []analysis.Choice
	for _, c := range openings[0].candidates(own) {
		if all := stand[c.entry.Protector.ID]; len(all) == len(openings) {
			out = append(out, analysis.Choice{Entry: c.entry, Mend: placing(openings, all, c.entry, kind, name)})
		}
	}
	return out
}

// placing returns the change that places one kind on all of the openings.
func placing(openings []*opening, all []diagram.Protector, e library.Entry, kind, name string) analysis.Mend {
	out := analysis.NewMend("place "+library.Place(e, "", "", "").Name+" on …", name, func(tx *diagram.Tx) error {
		for i, o := range openings {
			placeOne(tx, all[i], o.accept)
		}
		return nil
	})
	out.Kind = kind
	return out
}
