package survey

import (
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// building is a document with what is found of it, for what sheets tell.
type building struct {
	doc        *diagram.Document
	topology   *analysis.Topology
	faults     map[diagram.End]analysis.Fault // may be nil
	convention unit.Convention
	fed        map[diagram.ID][]diagram.ID // boards by what feeds them
}

func newBuilding(doc *diagram.Document, topology *analysis.Topology, faults map[diagram.End]analysis.Fault, c unit.Convention) *building {
	out := &building{doc, topology, faults, c, map[diagram.ID][]diagram.ID{}}
	for p := range doc.Parts() {
		if feed, ok := out.feeding(p); ok && p.Kind.IsBoard() {
			out.fed[feed.ID] = append(out.fed[feed.ID], p.ID)
		}
	}
	return out
}

func (b *building) nameOf(id diagram.ID) string { return oneLine(b.doc.NameOf(id)) }

// feeding returns the part whose transformer feeds a board: the transformer that
// begins its zone, or the supply, which stands for the transformer that it comes
// from. It is false where nothing feeds the board, and where a generator does.
func (b *building) feeding(board part) (part, bool) {
	node := b.topology.Node(board)
	if node == nil {
		return part{}, false
	}
	feed, _ := b.doc.Part(node.Zone.Part)
	if !isFeed(feed) {
		return part{}, false
	}
	return feed, true
}

func isFeed(p part) bool { return p.Kind == diagram.Transformer || p.Kind == diagram.Supply }

func (b *building) onBoard(s *subject) string { return b.nameOf(s.protector.Bus) }

// feedName is what people call a transformer: that of a supply is the utility's.
func (b *building) feedName(s *subject) string {
	switch s.part.Kind {
	case "":
		return ""
	case diagram.Supply:
		return "transformer of the utility at " + b.nameOf(s.id())
	}
	return b.nameOf(s.id())
}

// feeds names the boards that a transformer feeds.
func (b *building) feeds(s *subject) string {
	names := make([]string, len(b.fed[s.id()]))
	for i, id := range b.fed[s.id()] {
		names[i] = b.nameOf(id)
	}
	return unit.Names(names)
}

func (b *building) run(s *subject) string {
	return strings.TrimPrefix(b.nameOf(s.feeder.ID), "feeder ")
}

func (b *building) ownName(s *subject) string { return b.nameOf(s.id()) }

func (b *building) loadOn(s *subject) string {
	for up := b.topology.Node(s.part); up != nil; up = up.Up {
		if p, _ := b.doc.Part(up.At.Part); p.Kind.IsBoard() {
			return b.nameOf(p.ID)
		}
	}
	return "no board on the drawing"
}

// fedFrom names the parts between a board and its source, the source first.
func (b *building) fedFrom(s *subject) string {
	const most = 5
	node := b.topology.Node(s.part)
	if node == nil || node.Up == nil {
		return "nothing on the drawing"
	}
	var names []string
	for up := node.Up; up != nil; up = up.Up {
		name := b.nameOf(up.At.Part)
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	if len(names) > most {
		names = append(names[:most-1], "…", names[len(names)-1])
	}
	slices.Reverse(names)
	out := strings.Join(names, " – ")
	if !node.Fed {
		out += " (open now)"
	}
	return out
}

// carried returns the system that arrives at a board by the drawing.
func (b *building) carried(board part) diagram.System {
	if node := b.topology.Node(board); node != nil {
		return node.System
	}
	return diagram.System{}
}

func (b *building) arrives(s *subject) string {
	if system := b.carried(s.part); system.Known() {
		return systemText(system)
	}
	return ""
}

// reckoned is the fault current of a board by calculation.
func (b *building) reckoned(s *subject) string {
	node := b.topology.Node(s.part)
	if node == nil || !b.faults[node.At].Known {
		return ""
	}
	return strings.ReplaceAll(unit.Format(b.faults[node.At].Highest(), unit.Current, b.convention), "\u00a0", " ")
}

// systemText is the short form of a system with its unit: 480 V delta.
func systemText(s diagram.System) string {
	volts, rest, _ := strings.Cut(s.String(), " ")
	return strings.TrimSpace(volts + " V " + rest)
}
