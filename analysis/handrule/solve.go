package handrule

import (
	"context"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Solve returns the voltages by the hand rule for one plan, on the topology
// that analysis.Trace gave for the same document. The levels carry no
// workings: see Explain. It panics where the rule has no front or no speed.
// The cost grows with the number of records, and with its logarithm.
// It stops where the context ends, with its error.
func Solve(ctx context.Context, doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, rule Rule) (*analysis.Result, error) {
	s := newSolver(doc, plan, topology, rule)
	s.judge(ctx)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	along, breaks := s.alongFeeders(ctx), s.breaks()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	result := &analysis.Result{
		Basis:    analysis.HandRule,
		Plan:     plan,
		Topology: topology,
		Buses:    make(map[diagram.ID]analysis.BusResult, len(s.places)),
		Feeders:  along,
		Breaks:   breaks,
		Findings: slices.Concat(topology.Findings, s.coverFindings()),
	}
	for i := range s.places {
		if p := &s.places[i]; p.result != nil {
			result.Buses[p.part.ID] = analysis.BusResult{ID: p.part.ID, System: p.node.System, Levels: p.result}
		}
	}
	analysis.SortFindings(result.Findings)
	return result, ctx.Err()
}

// solver holds one document and plan by number.
type solver struct {
	doc        *diagram.Document
	rule       Rule
	slope      float64 // rise of the voltage with distance, V/m
	parts      []diagram.Part
	feeders    []diagram.Feeder
	feeder     map[diagram.ID]int // number by id
	protectors map[diagram.ID][]*diagram.Protector
	places     []place
	at         map[*analysis.Node]int
	regions    []*region
	topology   *analysis.Topology
}

func newSolver(doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, rule Rule) *solver {
	rule.check()
	parts, feeders, _ := doc.Count()
	s := &solver{
		doc:        doc,
		rule:       rule,
		slope:      2 * rule.steepness() / rule.Speed,
		parts:      slices.AppendSeq(make([]diagram.Part, 0, parts), doc.Parts()),
		feeders:    slices.AppendSeq(make([]diagram.Feeder, 0, feeders), doc.Feeders()),
		feeder:     make(map[diagram.ID]int, feeders),
		protectors: map[diagram.ID][]*diagram.Protector{},
		topology:   topology,
	}
	for i := range s.feeders {
		s.feeder[s.feeders[i].ID] = i
	}
	for p := range doc.ProtectorsOf(plan) {
		if node := topology.Nodes[diagram.End{Part: p.Bus}]; node != nil {
			p = analysis.Seated(p, node.System)
		}
		s.protectors[p.Bus] = append(s.protectors[p.Bus], &p)
	}
	s.placeNodes()
	s.walk()
	s.noteNext()
	return s
}

// judge makes the levels of every board and load, until the context ends.
func (s *solver) judge(ctx context.Context) {
	room := make([]analysis.Level, 0, diagram.ModeCount*len(s.places))
	for i := range s.places {
		p := &s.places[i]
		if !p.part.Kind.IsJudged() {
			continue
		}
		if ctx.Err() != nil {
			return
		}
		start := len(room)
		room = s.appendLevels(room, i, false)
		p.result = room[start:len(room):len(room)]
	}
	s.findJudged()
}

// breaks lists the transformers and open switches at which cover ends: those
// with a protector in reach on either side.
func (s *solver) breaks() []analysis.Break {
	var out []analysis.Break
	for _, r := range s.regions {
		if r.edge.id != "" && (r.reach.nearest() != nil || r.any() != nil) {
			out = append(out, analysis.Break{ID: r.edge.id, Reason: r.edge.reason})
		}
	}
	slices.SortFunc(out, func(a, b analysis.Break) int { return diagram.CompareID(a.ID, b.ID) })
	return slices.Compact(out)
}
