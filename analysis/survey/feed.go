package survey

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// feeding returns the part whose transformer feeds the board: the transformer
// that begins its zone, or the supply, which stands for the transformer that it
// comes from. It is false where nothing feeds the board, and where a generator
// does.
func feeding(doc *diagram.Document, topology *analysis.Topology, board diagram.ID) (part, bool) {
	p, ok := doc.Part(board)
	if !ok {
		return part{}, false
	}
	node := topology.Node(p)
	if node == nil {
		return part{}, false
	}
	feed, ok := doc.Part(node.Zone.Part)
	return feed, ok && (feed.Kind == diagram.Transformer || feed.Kind == diagram.Supply)
}

// feedColumns returns what is asked of the transformer that feeds a board.
func feedColumns() []column[part] {
	either := func(key string, heading words, supply, transformer string) column[part] {
		fields := diagram.PartFields()
		return eitherOf(asked(fields, supply, key, heading), asked(fields, transformer, key, heading))
	}
	return []column[part]{
		either("feed power", both("Transformer rating"), "source.power", "transformer.power").in("kVA", 50_000),
		either("feed impedance", both("Transformer impedance"), "source.reactance", "transformer.impedance"),
	}
}

// eitherOf is one column of a supply and another of a transformer.
func eitherOf(supply, transformer column[part]) column[part] {
	of := func(p part) column[part] {
		if p.Kind == diagram.Supply {
			return supply
		}
		return transformer
	}
	out := transformer
	out.read = func(p part, c unit.Convention) string { return of(p).read(p, c) }
	out.write = func(p *part, s string, h habits) error { return of(*p).write(p, s, h) }
	out.clear = func(p *part) { of(*p).clear(p) }
	out.value = func(p part) float64 { return of(p).value(p) }
	out.mark = func(p part, c unit.Convention) string { return of(p).mark(p, c) }
	return out
}

// feedName is what people call the transformer: that of a supply is the
// utility's.
func feedName(doc *diagram.Document, feed part) string {
	if feed.Kind == diagram.Supply {
		return "transformer of the utility at " + doc.NameOf(feed.ID)
	}
	return doc.NameOf(feed.ID)
}

// feedCell keeps what a row says of the transformer.
func (x *reading) feedCell(n, slot int, board part) {
	if strings.TrimSpace(x.cell(n, slot)) == "" {
		return
	}
	feed, wrong := x.feedOf(n, board)
	if wrong != (unread{}) {
		x.tell(n, slot, wrong)
		return
	}
	state(x, x.parts, feedColumns(), feed, feed.ID, board.ID, n, slot)
}

// feedOf returns the transformer that feeds the board of a row, or what is wrong
// with it: the row may be older than the drawing.
func (x *reading) feedOf(n int, board part) (part, unread) {
	feed, ok := feeding(x.doc, x.topology, board.ID)
	named := x.id(n, keyFeed)
	switch {
	case !ok && named != "":
		return part{}, unread{fmt.Sprintf("the row is of %s, which no longer feeds %s", quoted(string(named)), x.nameOf(board.ID)), "enter it at that transformer by hand"}
	case !ok:
		return part{}, unread{"no transformer feeds " + x.nameOf(board.ID) + " on the drawing", "draw what feeds it, then enter it there"}
	case named != "" && named != feed.ID:
		return part{}, unread{fmt.Sprintf("the row is of %s, and %s is fed from %s now", quoted(string(named)), x.nameOf(board.ID), feedName(x.doc, feed)), "enter it at that transformer by hand"}
	}
	return feed, unread{}
}

func (x *reading) feedName(id diagram.ID) string {
	feed, _ := x.doc.Part(id)
	return oneLine(feedName(x.doc, feed))
}

// feedNote says that a change reaches farther than the board of its row.
func (x *reading) feedNote(feed, board diagram.ID) string {
	out := "It feeds " + x.nameOf(board)
	if others := x.fedBy(feed, board); len(others) > 0 {
		out += " and also " + list(others)
	}
	return out + "."
}

// fedBy names the boards that a transformer feeds besides one.
func (x *reading) fedBy(feed, but diagram.ID) []string {
	const most = 5
	var out []string
	for p := range x.doc.Parts() {
		if other, ok := feeding(x.doc, x.topology, p.ID); ok && other.ID == feed && p.ID != but && p.Kind.IsBoard() {
			out = append(out, x.nameOf(p.ID))
		}
	}
	if len(out) > most {
		out = append(out[:most], fmt.Sprintf("%d more", len(out)-most))
	}
	return out
}
