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
	Lines      []Line
	Feed       []Line   // of the transformer that feeds it; its id is that of a supply where it is the utility's, and empty where there is none
	Feeders    [][]Line // that lead to it, the last one first, and to the loads on it
	Loads      [][]Line // that hang on it with no board between
	Supplies   [][]Line // that come to it with no board between
	Protectors [][]Line // of those that are there by the plan
	Free       []Line   // of one that is not drawn yet

	info diagram.Info // of the drawing
}

// Line is one thing that is asked or told.
type Line struct {
	Key     string
	Label   string // in the words of the convention
	Value   string // what the record says, in the units of the convention; empty where it is silent
	Drawing string // what the drawing says where the record is silent

	column
	of *subject // whose line it is
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

// AsFound returns the plan that records what was found: the first one.
func AsFound(doc *diagram.Document) diagram.ID { return doc.Plans()[0].ID }

// Sheets returns a sheet for each of the boards, in their order and each once;
// ids of other records are passed over. Without boards it makes one for every
// panel and switchboard, from the supply outward. The topology is that of the
// document; faults are of the same document and may be nil.
func Sheets(doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, faults map[diagram.End]analysis.Fault, ids []diagram.ID, convention unit.Convention) []Sheet {
	if len(ids) == 0 {
		ids = outward(doc, topology)
	}
	b, forms, index := newBuilding(doc, topology, faults, convention), forms(), diagram.NewIndex(doc, plan)
	loadsOn := b.loadsByBoard()
	seen := map[diagram.ID]bool{}
	var out []Sheet
	for _, id := range ids {
		board, ok := doc.Part(id)
		if !ok || !board.Kind.IsBoard() || seen[id] {
			continue
		}
		seen[id] = true
		sheet := b.sheet(forms, board)
		sheet.Plan = doc.NameOf(plan)
		b.wire(&sheet, forms, board, loadsOn[id])
		for _, p := range index.ProtectorsOn(id) {
			sheet.Protectors = append(sheet.Protectors, b.lines(forms[protectors], subject{protector: p}))
		}
		out = append(out, sheet)
	}
	return out
}

// outward returns the boards as a walk from the supply meets them: source by
// source, by the steps back to it, what nothing feeds last.
func outward(doc *diagram.Document, topology *analysis.Topology) []diagram.ID {
	var out []diagram.ID
	from := map[diagram.ID]analysis.Node{}
	for p := range doc.Parts() {
		if !p.Kind.IsBoard() {
			continue
		}
		out = append(out, p.ID)
		if node := topology.Node(p); node != nil && node.Source != "" {
			from[p.ID] = *node
		}
	}
	slices.SortStableFunc(out, func(a, b diagram.ID) int {
		one, other := from[a], from[b]
		if (one.Source == "") != (other.Source == "") {
			return cmp.Compare(len(other.Source), len(one.Source)) // what nothing feeds
		}
		return cmp.Or(diagram.CompareID(one.Source, other.Source), cmp.Compare(one.Depth, other.Depth), diagram.CompareID(a, b))
	})
	return out
}

// sheet returns the sheet of a board, without protectors.
func (b *building) sheet(forms [formCount]form, board part) Sheet {
	info := b.doc.Info()
	feed, _ := b.feeding(board)
	out := Sheet{
		Board: board.ID, Name: b.nameOf(board.ID), Kind: board.Kind, Convention: b.convention,
		Title: cmp.Or(oneLine(info.Title), "Sheet without a title"), Site: oneLine(info.Site),
		Lines: b.lines(forms[boards], subject{part: board}),
		Feed:  b.lines(forms[feeds], about(feed)),
		Free:  b.lines(forms[protectors], subject{protector: protector{Bus: board.ID}}),
		info:  info,
	}
	if !board.System.Known() { // else what the nameplate leaves open is for the nameplate to say
		arrives := subject{part: part{System: b.carried(board)}}
		for i, line := range out.Lines {
			if line.role == asks && line.Value == "" {
				out.Lines[i].Drawing = line.read(&arrives, b.convention)
			}
		}
	}
	return out
}

// lines returns what the columns of a table say of a record.
func (b *building) lines(f form, record subject) []Line {
	out := make([]Line, len(f.columns))
	for i, c := range f.columns {
		line := Line{Key: c.key, Label: c.heading.in(b.convention), column: c, of: &record}
		switch c.role {
		case asks:
			line.Value = c.read(&record, b.convention)
		case naming:
			line.Value = c.tell(b, &record)
		case telling:
			line.Drawing = oneLine(c.tell(b, &record))
		}
		out[i] = line
	}
	return out
}

// choices returns what the page offers to tick.
func (l Line) choices(c unit.Convention) []string {
	var out []string
	for _, o := range l.options {
		word := o.words.in(c)
		if l.listed == nil || l.listed(o, c) || word == l.Value || word == l.Drawing {
			out = append(out, word)
		}
	}
	return out
}

// cell returns what the table has of a line: of what is asked the record alone, so
// that a table that comes back unaltered changes nothing.
func (l Line) cell() string {
	if l.role == telling {
		return escaped(strings.TrimSpace(l.Drawing))
	}
	return escaped(strings.TrimSpace(l.Value))
}
