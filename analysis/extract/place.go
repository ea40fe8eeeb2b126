package extract

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// place is one set of conductors: a terminal, or the two that a transfer
// switch joins.
type place struct {
	end     diagram.End
	part    diagram.Part
	system  diagram.System
	node    *analysis.Node
	reached bool
	bus     int // in the network; None before it is added
}

// lines names the line conductors.
const lines = "ABC"

// letters returns the conductors that a system has.
func letters(s diagram.System) string {
	out := lines[:s.Lines()]
	if s.Neutral && s.Wiring != "" {
		out += "N"
	}
	return out
}

// shared returns the conductors that both have, in order.
func shared(a, b string) string {
	var out []byte
	for i := range len(a) {
		if slices.Contains([]byte(b), a[i]) {
			out = append(out, a[i])
		}
	}
	return string(out)
}

// reach finds the places, and which of them the surge comes to.
func (x *extractor) reach() error {
	for part := range x.Document.Parts() {
		if err := x.ctx.Err(); err != nil {
			return err
		}
		x.addPlaces(part)
	}
	var err error
	if x.start, err = x.struck(); err != nil {
		return err
	}
	next := x.ways()
	queue := []int{x.start}
	x.places[x.start].reached = true
	for done := 0; done < len(queue); done++ {
		for _, to := range next[queue[done]] {
			if !x.places[to].reached {
				x.places[to].reached = true
				queue = append(queue, to)
			}
		}
	}
	return nil
}

func (x *extractor) addPlaces(part diagram.Part) {
	for _, port := range part.Kind.Ports() {
		end := diagram.End{Part: part.ID, Port: port}
		node := x.Topology.Nodes[end]
		if part.Kind == diagram.TransferSwitch && port == part.Transfer.Selected() {
			continue // one with the load side
		}
		x.at[end] = len(x.places)
		x.places = append(x.places, place{end: end, part: part, system: node.System, node: node, bus: None})
	}
	if part.Kind == diagram.TransferSwitch {
		common := diagram.End{Part: part.ID, Port: diagram.Common}
		selected := diagram.End{Part: part.ID, Port: part.Transfer.Selected()}
		at := x.at[common]
		x.at[selected] = at
		if p := &x.places[at]; !p.system.Known() {
			p.system = x.Topology.Nodes[selected].System
		}
	}
}

// struck returns the place at which the surge arrives.
func (x *extractor) struck() (int, error) {
	if x.Surge.Part == "" {
		return x.supplyInUse()
	}
	part, ok := x.Document.Part(x.Surge.Part)
	if !ok {
		return 0, x.problem("choose another", "the part %s where it arrives is not on the sheet", x.Surge.Part)
	}
	ports := part.Kind.Ports()
	if len(ports) == 0 {
		return 0, x.problem("choose another part", "a surge cannot arrive at %s, which has no conductors", x.Document.NameOf(part.ID))
	}
	port := ports[0]
	if part.Kind == diagram.TransferSwitch {
		port = diagram.Common
	}
	at, ok := x.at[diagram.End{Part: part.ID, Port: port}]
	if ok && x.places[at].system.Known() {
		return at, nil
	}
	return 0, x.problem("lead a feeder to it from a supply, or state its voltage", "the system at %s is not known", x.Document.NameOf(part.ID))
}

// supplyInUse returns the first supply, or else generator, that feeds
// something through closed switches; or else the first of them.
func (x *extractor) supplyInUse() (int, error) {
	feeds := map[diagram.ID]bool{}
	for _, p := range x.places {
		if p.node.Fed && p.node.Source != p.part.ID {
			feeds[p.node.Source] = true
		}
	}
	best, rank := None, 0
	for i, p := range x.places {
		if !p.part.Kind.IsSource() || !p.system.Known() {
			continue
		}
		score := 1
		if p.part.Kind == diagram.Supply {
			score++
		}
		if feeds[p.part.ID] {
			score += 2
		}
		if score > rank {
			best, rank = i, score
		}
	}
	if best == None {
		return 0, x.problem("place one, or choose the part where the surge arrives", "there is no supply with a known system on the sheet")
	}
	return best, nil
}

// ways returns which places a surge goes to from each.
func (x *extractor) ways() [][]int {
	out := make([][]int, len(x.places))
	join := func(a, b diagram.End) {
		i, j := x.at[a], x.at[b]
		if x.places[i].system.Known() && x.places[j].system.Known() {
			out[i], out[j] = append(out[i], j), append(out[j], i)
		}
	}
	for f := range x.Document.Feeders() {
		if !f.Switch.Open {
			join(f.From, f.To)
		}
	}
	for part := range x.Document.Parts() {
		end := func(port diagram.Port) diagram.End { return diagram.End{Part: part.ID, Port: port} }
		switch {
		case part.Kind == diagram.Transformer:
			join(end(diagram.Primary), end(diagram.Secondary))
		case part.Kind == diagram.TransferSwitch && !part.Transfer.SwitchesNeutral:
			join(end(diagram.Normal), end(diagram.Common))
			join(end(diagram.Emergency), end(diagram.Common))
		}
	}
	return out
}
