package analysis

import (
	"fmt"
	"slices"

	"clampline/analysis/waveform"
	"clampline/diagram"
)

// The bounds of location category A: loads farther than this from their board on wires
// of 14 to 10 AWG, m and m2 (IEEE C62.41-1991, from memory: 30 ft). The standard's other
// mark, 20 m from the service on such wires, lies within this one.
const (
	farFromBoard = 10.0
	branchWire   = 5.3e-6 // 10 AWG, 5.26 mm2
)

// CategoryOf returns the location category of a board or load. One of which a wire on
// the way is not known counts as near: more current flows there.
func CategoryOf(doc *diagram.Document, topology *Topology, part diagram.Part) diagram.Category {
	if part.Kind != diagram.Load {
		return diagram.CategoryB
	}
	way := 0.0
	for node := topology.Node(part); node != nil && node.Up != nil; node = node.Up {
		if f, ok := doc.Feeder(node.Feeder); ok {
			if !isBranchWire(f) {
				return diagram.CategoryB
			}
			way += f.Length
		}
		if host, _ := doc.Part(node.Up.At.Part); host.Kind.IsBoard() || host.Kind == diagram.Transformer {
			break
		}
	}
	if way > farFromBoard {
		return diagram.CategoryA
	}
	return diagram.CategoryB
}

func isBranchWire(f diagram.Feeder) bool { return f.Area > 0 && f.Area <= branchWire }

// step is the exposure of a place inside: what arises there, or is made there.
type step struct {
	switching diagram.Switching
	name      string
	number    int // of the steps of IEEE C62.41-1991
	level     int // of the levels of IEC 61000-4-5
}

var steps = []step{
	{diagram.OrdinarySwitching, "Inside", 1, 2},
	{diagram.ContactorSwitching, "Contactors", 2, 3},
	{diagram.CapacitorSwitching, "Capacitor banks", 3, 4},
}

// insideCases returns the surges that are born inside. An ordinary place has the lowest
// step of exposure, a load that switches contactors, a drive or a welder the middle
// one, a capacitor bank the highest: the steps of IEEE C62.41-1991 (from memory), a
// ring wave in either category and a combination wave in B, from line to neutral; by
// IEC practice levels 2 to 4 of IEC 61000-4-5:2014 (from memory), which its annex gives
// to classes of installation, from line to earth and to neutral. Which load has which
// step is common practice, no source. Steps that no part can have are left out.
func insideCases(doc *diagram.Document, has map[location]bool) []diagram.Surge {
	return slices.DeleteFunc(allInside(doc), func(s diagram.Surge) bool {
		if s.Category == "" {
			return !has[location{s.Switching, diagram.CategoryA}] && !has[location{s.Switching, diagram.CategoryB}]
		}
		return !has[location{s.Switching, s.Category}]
	})
}

// allInside returns the surges of every step.
func allInside(doc *diagram.Document) []diagram.Surge {
	var out []diagram.Surge
	iec := doc.FollowsIEC()
	for _, s := range steps {
		if iec {
			out = append(out,
				s.surge("line to ground", "", diagram.LineToEarth, fmt.Sprintf("surge level %d, line to earth", s.level)),
				s.surge("line to neutral", "", diagram.LineToNeutral, fmt.Sprintf("surge level %d, line to line (2014)", s.level)))
			continue
		}
		out = append(out,
			s.surge("B, ring", diagram.CategoryB, diagram.LineToNeutral, fmt.Sprintf("category B%d, ring wave", s.number)),
			s.surge("B, combination", diagram.CategoryB, diagram.LineToNeutral, fmt.Sprintf("category B%d, combination wave", s.number)),
			s.surge("A, ring", diagram.CategoryA, diagram.LineToNeutral, fmt.Sprintf("category A%d, ring wave", s.number)))
	}
	return out
}

// OtherSteps returns what the other steps of exposure would bring to the places of a
// usual case; none of any other case.
func OtherSteps(doc *diagram.Document, s diagram.Surge) []diagram.Surge {
	if s.ID != "" || s.Places == "" {
		return nil
	}
	return slices.DeleteFunc(allInside(doc), func(o diagram.Surge) bool {
		return o.Switching == s.Switching || o.Category != s.Category || o.Path != s.Path || o.Wave != s.Wave
	})
}

// surge returns a case that arrives at every place of a step.
func (s step) surge(name string, category diagram.Category, path diagram.Path, preset string) diagram.Surge {
	p := named(preset)
	if p.Wave == waveform.WaveLaboratory { // a level of a laboratory stands for what arises outside one
		p.Wave = waveform.WaveCombination
	}
	return diagram.Surge{
		Name: s.name + ", " + name, Note: fmt.Sprintf("%s, %s; each place that switches like this: %s; it stands for whatever switches there or nearby", p.Standard, p.Name, s.switching),
		Places: diagram.EveryBus, Category: category, Switching: s.switching, Path: path, Wave: diagram.Wave(p.Wave), Voltage: p.Voltage, Current: p.Current,
	}
}

// location is a step and a category that places have.
type location struct {
	switching diagram.Switching
	category  diagram.Category
}

// ends are what the feeders at a part are.
type ends uint8

const (
	fed  ends = 1 << iota // one is closed
	near                  // one may be short, or is of more than a branch wire
	far                   // one may be a long branch
)

// arising returns the supplies that feed something, in the order of the ids, and which
// steps and categories some part may have. It goes by the last feeder of each load, so
// that no building need be traced, and over everything once: forms ask on each refresh.
func arising(doc *diagram.Document) (supplies []diagram.Part, has map[location]bool) {
	parts, _, _ := doc.Count()
	at := make(map[diagram.ID]ends, parts)
	for f := range doc.Feeders() {
		var is ends
		if !f.Switch.Open {
			is |= fed
		}
		if !isBranchWire(f) || f.Length <= farFromBoard {
			is |= near
		}
		if isBranchWire(f) {
			is |= far
		}
		at[f.To.Part] |= is
		at[f.From.Part] |= is
	}
	has = map[location]bool{}
	for part := range doc.Parts() {
		is := at[part.ID]
		switch {
		case part.Kind == diagram.Supply && part.System.Known() && is&fed != 0:
			supplies = append(supplies, part)
		case part.Kind.IsBoard():
			has[location{diagram.OrdinarySwitching, diagram.CategoryB}] = true
		case part.Kind == diagram.Load:
			if is&near != 0 {
				has[location{part.Switches(), diagram.CategoryB}] = true
			}
			if is&far != 0 {
				has[location{part.Switches(), diagram.CategoryA}] = true
			}
		}
	}
	return supplies, has
}
