package analysis

import "clampline/diagram"

// Node is what one terminal of a part is: one conductor set of the building.
// A transformer has a node for each side, a transfer switch one for each of
// its three terminals, every other part but a note has one.
type Node struct {
	At     diagram.End
	System diagram.System // zero where it is not known
	Fed    bool           // whether it is connected to a live supply through closed switches
	Source diagram.ID     // the supply or generator that feeds it, or would
	Zone   diagram.End    // the terminal that begins its transformer zone: a source, or the secondary of a transformer
	Up     *Node          // the next node toward the supply; nil at a source and at what nothing feeds
	Feeder diagram.ID     // the feeder between this node and Up, or empty where both are terminals of one part
	Length float64        // of that feeder, m; 0 without one
	Total  float64        // length of the whole way back to the source, m
	Depth  int            // number of steps back to the source
}

// Topology is what is connected to what, and what each bus is.
type Topology struct {
	Nodes    map[diagram.End]*Node
	Findings []Finding // loops, meeting supplies, what nothing feeds, what does not fit; sorted
}

// Node returns the node at the only or the first terminal of the part (for a
// transformer its primary, for a transfer switch its load side), or nil for a
// note and for a part that is not in the document.
func (t *Topology) Node(part diagram.Part) *Node {
	if part.Kind == diagram.TransferSwitch {
		return t.Nodes[diagram.End{Part: part.ID, Port: diagram.Common}]
	}
	ports := part.Kind.Ports()
	if len(ports) == 0 {
		return nil
	}
	return t.Nodes[diagram.End{Part: part.ID, Port: ports[0]}]
}
