package handrule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// place is one node of the topology with what reaches it.
type place struct {
	node   *analysis.Node
	part   *diagram.Part
	up     int     // the place above, or none
	region *region // what a protector can cover without crossing a transformer or an open switch
	reach  *reach
	own    [diagram.ModeCount]*cover   // by the protectors here
	flat   [diagram.ModeCount]*cover   // by those of them to which a feeder adds less
	under  [diagram.ModeCount][]*cover // by those just below
	here   *ratings                    // of the protectors here, or nil
	below  int                         // the nearest judged part here or downstream within the region, or none
	above  int                         // the same, here or upstream
	result []analysis.Level

	next, bareNext bool // boards stand next downstream; one of them has no protector
}

// none stands for no place.
const none = -1

// boundary is what parts two regions.
type boundary struct {
	id     diagram.ID
	name   string
	reason analysis.Reason // PastTransformer or PastSwitch
}

// beyond is a protector on the far side of a boundary.
type beyond struct {
	cover *cover
	edge  boundary
}

// region is a stretch of the building within which a protector covers what
// lies downstream of it.
type region struct {
	parent *region
	edge   boundary                  // toward the supply; none at a source
	reach  *reach                    // what reaches the far side of the edge
	past   *beyond                   // the nearest protector upstream, beyond this edge or one above
	first  [diagram.ModeCount]*cover // one cover of each mode, wherever it is
	behind *beyond                   // one downstream of an open switch
}

func (r *region) any() *cover {
	for _, c := range r.first {
		if c != nil {
			return c
		}
	}
	return nil
}

// placeNodes lists the nodes of the topology from the sources down.
func (s *solver) placeNodes() {
	s.places = make([]place, 0, len(s.topology.Nodes))
	for i := range s.parts {
		for _, port := range s.parts[i].Kind.Ports() {
			if node := s.topology.Nodes[diagram.End{Part: s.parts[i].ID, Port: port}]; node != nil {
				s.places = append(s.places, place{node: node, part: &s.parts[i], up: none, below: none, above: none})
			}
		}
	}
	slices.SortStableFunc(s.places, func(a, b place) int { return a.node.Depth - b.node.Depth })
	s.at = make(map[*analysis.Node]int, len(s.places))
	for i := range s.places {
		s.at[s.places[i].node] = i
	}
	for i := range s.places {
		if up := s.places[i].node.Up; up != nil {
			s.places[i].up = s.at[up]
		}
	}
}

// edgeAbove returns what parts a place from the one above it, if anything
// does.
func (s *solver) edgeAbove(p *place) (boundary, bool) {
	node := p.node
	if node.Feeder != "" {
		if node.Fed {
			return boundary{}, false
		}
		f := &s.feeders[s.feeder[node.Feeder]]
		return boundary{f.ID, s.doc.NameOf(f.ID), analysis.PastSwitch}, f.Switch.Open
	}
	switch p.part.Kind {
	case diagram.Transformer:
		return boundary{p.part.ID, nameOf(p.part), analysis.PastTransformer}, !p.part.Transformer.Auto
	case diagram.TransferSwitch:
		throw := node.At.Port
		if throw == diagram.Common {
			throw = node.Up.At.Port
		}
		return boundary{p.part.ID, nameOf(p.part), analysis.PastSwitch}, throw != p.part.Transfer.Selected()
	}
	return boundary{}, false
}
