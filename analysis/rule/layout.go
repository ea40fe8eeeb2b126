package rule

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// lowVoltage is the highest voltage of a system that a surge protective device
// is for, V rms: NFPA 70:2020 article 242 and IEC 61643-11.
const lowVoltage = 1000

// besideDistance is how much conductor may lie between a board and what stands
// right beside it, m (common practice, no source). A length of 0 is not known and
// counts as none.
const besideDistance = 3

// route is what lies between a terminal and its source, itself not counted. A
// board counts where its voltage is at most lowVoltage or not known.
type route struct {
	board     *analysis.Node // the nearest board, or nil
	first     *analysis.Node // the board nearest to the source, or nil
	bond      *analysis.Node // the nearest board of its zone that bonds the neutral or holds the service disconnect
	emergency *analysis.Node // the nearest board of an emergency system
	service   bool           // one of the boards holds the service disconnect
	structure bool           // one of them is the first of another structure
	transfer  bool           // a transfer switch lies between
	covered   bool           // a protector stands on one of the parts
	box       diagram.ID     // the nearest junction with a protector, in its zone and right beside it, where no board lies between
	toBox     float64        // length of conductor to that, m
}

// layout is what lies above and below the parts of a sheet. It is found once,
// for all rules on parts.
type layout struct {
	spots     map[*analysis.Node]*spot
	next      map[diagram.ID][]*analysis.Node // of each board: the boards next downstream
	feedsLoad map[diagram.ID]bool             // the boards with a load of their own
	usedBelow map[purpose]bool                // what the next parts below a board are for
	besideBox map[diagram.ID][]*analysis.Node // of each junction with a protector: the boards right beside it, downstream
	stoodIn   map[diagram.ID]bool             // of a board: whether each of the next ones has a protector; made where a rule asks
	services  map[diagram.ID]*service         // by source
	entrances map[*analysis.Node]*service     // by board that is one
	levels    map[diagram.ID][]*level         // of critical power, by the part that reports them
}

// spot is one terminal with the route to it, and that to what it feeds.
type spot struct{ above, below route }

// purpose is what a part below a board is for.
type purpose struct {
	board diagram.ID
	use   diagram.Use
}

// service is what one supply feeds.
type service struct {
	entrances       []*analysis.Node // boards with the service disconnect, or else the first ones
	dwelling        bool             // it supplies dwelling units
	sleeping        bool             // or sleeping rooms
	firsts, flagged []*analysis.Node
}

// layout returns the layout of the sheet.
func (s *sheet) layout() *layout {
	if s.laid == nil {
		s.laid = newLayout(s)
	}
	return s.laid
}

// newLayout walks from the sources down. The cost grows with the number of
// records.
func newLayout(s *sheet) *layout {
	l := &layout{
		spots: make(map[*analysis.Node]*spot, len(s.Topology.Nodes)), next: map[diagram.ID][]*analysis.Node{},
		feedsLoad: map[diagram.ID]bool{}, usedBelow: map[purpose]bool{}, services: map[diagram.ID]*service{},
		entrances: map[*analysis.Node]*service{}, besideBox: map[diagram.ID][]*analysis.Node{},
		stoodIn: map[diagram.ID]bool{},
	}
	for part := range s.Document.Parts() {
		for _, port := range part.Kind.Ports() {
			if node := s.Topology.Nodes[diagram.End{Part: part.ID, Port: port}]; node != nil {
				l.visit(s, node)
			}
		}
	}
	for _, of := range l.services {
		of.entrances = l.entrancesOf(of)
		for _, node := range of.entrances {
			l.entrances[node] = of
		}
	}
	l.levels = s.criticalLevels()
	return l
}

// visit writes down a terminal, after those that feed it.
func (l *layout) visit(s *sheet, node *analysis.Node) *spot {
	if at := l.spots[node]; at != nil {
		return at
	}
	above := route{}
	if node.Up != nil {
		above = l.visit(s, node.Up).below.along(node)
	}
	part, _ := s.Document.Part(node.At.Part)
	at := &spot{above, s.pass(above, node, part)}
	l.spots[node] = at
	l.noteBelow(node, part, above)
	if above.box != "" && takesBoard(node, part) {
		l.besideBox[above.box] = append(l.besideBox[above.box], node)
	}
	l.noteService(node, part, above)
	return at
}

// along returns the route at the end of the feeder or winding that leads to the
// node.
func (w route) along(node *analysis.Node) route {
	if node.Zone != node.Up.Zone {
		w.bond, w.box = nil, ""
	}
	w.toBox += node.Length
	if analysis.ToMicrometre(w.toBox) > besideDistance {
		w.box = ""
	}
	return w
}

// pass returns the route to what the node feeds from that to the node itself.
func (s *sheet) pass(w route, node *analysis.Node, part diagram.Part) route {
	protected := slices.ContainsFunc(s.counting(part.ID), anyProtector)
	w.covered = w.covered || protected
	w.transfer = w.transfer || part.Kind == diagram.TransferSwitch
	if part.Kind == diagram.Junction && protected {
		w.box, w.toBox = part.ID, 0
	}
	if takesBoard(node, part) {
		return passBoard(w, node, part)
	}
	return w
}

func passBoard(w route, node *analysis.Node, board diagram.Part) route {
	w.board, w.box = node, ""
	if w.first == nil {
		w.first = node
	}
	if board.Board.Bonded || board.Board.Service {
		w.bond = node
	}
	if board.Use == diagram.EmergencyUse {
		w.emergency = node
	}
	w.service = w.service || board.Board.Service
	w.structure = w.structure || board.Board.Structure
	return w
}

// takesBoard reports whether the part is a board for whose system there are
// protectors.
func takesBoard(node *analysis.Node, part diagram.Part) bool {
	return part.Kind.IsBoard() && !(node.System.Voltage > lowVoltage)
}

// noteBelow writes down at the board above what the part is.
func (l *layout) noteBelow(node *analysis.Node, part diagram.Part, w route) {
	if w.board == nil {
		return
	}
	above := w.board.At.Part
	if part.Use != "" {
		l.usedBelow[purpose{above, part.Use}] = true
	}
	if part.Kind == diagram.Load {
		l.feedsLoad[above] = true
	}
	if takesBoard(node, part) {
		l.next[above] = append(l.next[above], node)
	}
}

// noteService writes down at the source what the part is.
func (l *layout) noteService(node *analysis.Node, part diagram.Part, w route) {
	if node.Source == "" {
		return
	}
	of := l.services[node.Source]
	if of == nil {
		of = &service{}
		l.services[node.Source] = of
	}
	of.dwelling = of.dwelling || part.Use == diagram.DwellingUnitUse || part.Exposure.Occupancy == diagram.Dwelling
	of.sleeping = of.sleeping || part.Use == diagram.SleepingRoomsUse || part.Exposure.Occupancy == diagram.SleepingRooms
	if !takesBoard(node, part) {
		return
	}
	if w.first == nil {
		of.firsts = append(of.firsts, node)
	}
	if part.Board.Service && !w.service {
		of.flagged = append(of.flagged, node)
	}
}

// entrancesOf returns the boards with the service disconnect, and the first
// boards that have none below them.
func (l *layout) entrancesOf(of *service) []*analysis.Node {
	under := map[*analysis.Node]bool{}
	for _, node := range of.flagged {
		under[cmp.Or(l.spots[node].above.first, node)] = true
	}
	out := of.flagged
	for _, node := range of.firsts {
		if !under[node] {
			out = append(out, node)
		}
	}
	return out
}

// route returns what lies between the part and its source.
func (p *place) route() route { return p.layout().spots[p.node].above }

// service returns what the supply feeds of which the board is service
// equipment, or nil where the board is none.
func (p *place) service() *service {
	if _, ok := p.supply(); !ok {
		return nil
	}
	return p.layout().entrances[p.node]
}
