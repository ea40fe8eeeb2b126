package survey

import (
	"cmp"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Sheet is what the survey asks about one panel or switchboard, with what is
// known of it.
type Sheet struct {
	Board      diagram.ID
	Name       string
	Kind       diagram.Kind
	Title      string // of the drawing, or words that stand for it
	Site       string
	Plan       string
	Convention unit.Convention
	FedFrom    string // what lies between it and its source, or that nothing does
	Arrives    string // the system by the drawing, or nothing
	Reckoned   string // the fault current by the drawing, or nothing
	Lines      []Line
	Feed       Feed
	Protectors []Attached
}

// Line is one thing that is asked.
type Line struct {
	Key     string
	Label   string // in the words of the convention
	Value   string // what the record says, in the units of the convention; empty where it is silent
	Drawing string // what the drawing says where the record is silent
}

// Feed is the transformer that feeds a board. Its ID is that of a supply where
// the transformer is the utility's, and empty where there is none.
type Feed struct {
	ID    diagram.ID
	Name  string
	Lines []Line
}

// Attached is a protector that is there by the plan.
type Attached struct {
	ID    diagram.ID
	Lines []Line
}

// Line returns the line of the key, or one without a label.
func (s Sheet) Line(key string) Line { return lineOf(s.Lines, key) }

func lineOf(lines []Line, key string) Line {
	at := slices.IndexFunc(lines, func(l Line) bool { return l.Key == key })
	if at < 0 {
		return Line{}
	}
	return lines[at]
}

// Sheets returns a sheet for each of the boards, in their order and each once;
// ids of other records are passed over. Without boards it makes one for every
// panel and switchboard, from the supply outward. The topology is that of the
// document; faults are of the same document and may be nil.
func Sheets(doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, faults map[diagram.End]analysis.Fault, boards []diagram.ID, convention unit.Convention) []Sheet {
	if len(boards) == 0 {
		boards = outward(doc, topology)
	}
	index := diagram.NewIndex(doc, plan)
	seen := map[diagram.ID]bool{}
	var out []Sheet
	for _, id := range boards {
		board, ok := doc.Part(id)
		if !ok || !board.Kind.IsBoard() || seen[id] {
			continue
		}
		seen[id] = true
		sheet := newSheet(doc, topology, faults, board, convention)
		sheet.Plan = doc.NameOf(plan)
		for _, p := range index.ProtectorsOn(id) {
			sheet.Protectors = append(sheet.Protectors, Attached{p.ID, linesOf(protectorColumns(), p, convention)})
		}
		out = append(out, sheet)
	}
	return out
}

// outward returns the boards as a walk from the supply meets them: source by
// source, by the steps back to it, what nothing feeds last.
func outward(doc *diagram.Document, topology *analysis.Topology) []diagram.ID {
	type place struct {
		id     diagram.ID
		dead   int
		source diagram.ID
		depth  int
	}
	var places []place
	for p := range doc.Parts() {
		if !p.Kind.IsBoard() {
			continue
		}
		at := place{id: p.ID, dead: 1}
		if node := topology.Node(p); node != nil && node.Source != "" {
			at.dead, at.source, at.depth = 0, node.Source, node.Depth
		}
		places = append(places, at)
	}
	slices.SortStableFunc(places, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.dead, b.dead), diagram.CompareID(a.source, b.source), cmp.Compare(a.depth, b.depth), diagram.CompareID(a.id, b.id))
	})
	out := make([]diagram.ID, len(places))
	for i, p := range places {
		out[i] = p.id
	}
	return out
}

func newSheet(doc *diagram.Document, topology *analysis.Topology, faults map[diagram.End]analysis.Fault, board part, c unit.Convention) Sheet {
	info := doc.Info()
	out := Sheet{
		Board: board.ID, Name: oneLine(doc.NameOf(board.ID)), Kind: board.Kind, Convention: c,
		Title: cmp.Or(oneLine(info.Title), "Sheet without a title"), Site: oneLine(info.Site),
		Lines: linesOf(boardColumns(), board, c), FedFrom: "nothing on the drawing",
	}
	node := topology.Node(board)
	if node != nil {
		out.FedFrom = way(doc, node)
		out.draw(board, node.System, faults[node.At])
	}
	if feed, ok := feeding(doc, topology, board.ID); ok {
		out.Feed = Feed{feed.ID, feedName(doc, feed), linesOf(feedColumns(), feed, c)}
	}
	return out
}

// linesOf returns what the columns say of a record.
func linesOf[R comparable](columns []column[R], record R, c unit.Convention) []Line {
	out := make([]Line, len(columns))
	for i, column := range columns {
		out[i] = Line{Key: column.key, Label: column.heading.in(c), Value: column.read(record, c)}
	}
	return out
}

// way names the parts between a board and its source, the source first.
func way(doc *diagram.Document, node *analysis.Node) string {
	const most = 5
	var names []string
	for up := node.Up; up != nil; up = up.Up {
		name := oneLine(doc.NameOf(up.At.Part))
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return "nothing on the drawing"
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

// systemText is the short form of a system with its unit: 480 V delta.
func systemText(s diagram.System) string {
	volts, rest, _ := strings.Cut(s.String(), " ")
	return strings.TrimSpace(volts + " V " + rest)
}

// draw fills in what the drawing says where the record is silent.
func (s *Sheet) draw(board part, arrives diagram.System, fault analysis.Fault) {
	if arrives.Known() {
		s.Arrives = systemText(arrives)
	}
	if fault.Known {
		s.Reckoned = strings.ReplaceAll(unit.Format(fault.Highest(), unit.Current, s.Convention), "\u00a0", " ")
	}
	if board.System.Known() {
		arrives = diagram.System{} // what the nameplate leaves open is for the nameplate to say
	}
	carried := linesOf(boardColumns(), part{System: arrives}, s.Convention)
	for i := range s.Lines {
		line := &s.Lines[i]
		switch {
		case line.Value != "":
		case line.Key == keyFault:
			line.Drawing = s.Reckoned
		default:
			line.Drawing = carried[i].Value
		}
	}
}
