package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// way returns the terminals from the head of the transformer zone down to the
// part, the head first. It is never empty: the rules here need a node.
func (p *place) way() []*analysis.Node {
	var out []*analysis.Node
	for node := p.node; node != nil; node = node.Up {
		out = append(out, node)
		if node.At == node.Zone {
			break
		}
	}
	slices.Reverse(out)
	return out
}

// head returns the part that begins the transformer zone: a source, or the
// transformer whose secondary it is.
func (p *place) head() diagram.Part {
	part, _ := p.Document.Part(p.node.Zone.Part)
	return part
}

// device is an overcurrent device on the way from the head to a part.
type device struct {
	name    string  // of the board or feeder that it belongs to
	rated   float64 // A; 0 not known
	at      int     // the terminal of the way at which it sits
	board   bool    // the main breaker or the service disconnect of a board
	service bool    // the service disconnect
}

// devices returns the overcurrent devices between the head of the zone and the
// bus of the part, the nearest to the head first. The main breaker of the part
// itself is one: what hangs on its bus lies behind it.
func (p *place) devices() []device {
	var out []device
	for i, node := range p.way() {
		if feeder, ok := p.Document.Feeder(node.Feeder); ok { // which the head has none of
			out = append(out, p.switchOf(feeder, node, i)...)
		}
		part, _ := p.Document.Part(node.At.Part)
		if board := part.Board; part.Kind.IsBoard() && (board.Service || board.MainBreaker > 0) {
			out = append(out, device{p.Document.NameOf(part.ID), board.MainBreaker, i, true, board.Service})
		}
	}
	return out
}

// switchOf returns the breaker or fuse at the head of the feeder that leads to
// the terminal of that number. A disconnect without a fuse is none.
func (p *place) switchOf(feeder diagram.Feeder, node *analysis.Node, i int) []device {
	if kind := feeder.Switch.Kind; kind != diagram.Breaker && kind != diagram.Fuse {
		return nil
	}
	at := i - 1
	if feeder.From == node.At { // drawn backwards: its switch is at this end
		at = i
	}
	return []device{{p.Document.NameOf(feeder.ID), feeder.Switch.Rated, at, false, false}}
}

// serviceAbove returns the first service disconnect on the way, and whether
// there is one.
func serviceAbove(devices []device) (device, bool) {
	i := slices.IndexFunc(devices, func(d device) bool { return d.service })
	if i < 0 {
		return device{}, false
	}
	return devices[i], true
}

// serviceBelow returns the name of a board with the service disconnect that the
// part feeds within its zone, or nothing. A transfer switch leads on whichever
// way it stands.
func (p *place) serviceBelow() string { return p.findService(p.node, map[*analysis.Node]bool{}) }

func (p *place) findService(node *analysis.Node, seen map[*analysis.Node]bool) string {
	if seen[node] {
		return ""
	}
	seen[node] = true
	for _, feeder := range p.index.FeedersAt(node.At.Part) {
		below := p.Topology.Nodes[feeder.Other(node.At.Part)]
		if below == nil || below.Up != node {
			continue
		}
		part, _ := p.Document.Part(below.At.Part)
		switch {
		case part.Board.Service:
			return p.Document.NameOf(part.ID)
		case part.Kind == diagram.Transformer:
			continue
		}
		if name := p.findService(p.Topology.Node(part), seen); name != "" { // of a transfer switch its load side
			return name
		}
	}
	return ""
}

// atOrigin reports whether a part that a supply feeds is where the installation
// behind it begins: it is one of the entrances of the layout, or no board stands
// above it. The transformer of a supply at high voltage, and its switchboard, may
// stand between.
func (p *place) atOrigin() bool {
	return p.layout().entrances[p.node] != nil || p.route().first == nil
}

// protectorOnWay reports whether a protector of the plan that is meant stands
// on the part or between it and the head.
func (p *place) protectorOnWay(meant func(diagram.Protector) bool) bool {
	return slices.ContainsFunc(p.way(), func(node *analysis.Node) bool {
		return slices.ContainsFunc(p.protectorsOn(node.At.Part), meant)
	})
}

// wiring returns the length of the way from its terminal of that number down to
// the part, m, and whether every feeder there has a length.
func (p *place) wiring(from int) (metres float64, measured bool) {
	way := p.way()
	measured = true
	for _, node := range way[from+1:] {
		metres += node.Length
		measured = measured && (node.Feeder == "" || node.Length > 0)
	}
	return metres, measured
}
