package survey

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
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
	return []column[part]{
		quantityColumn("feed power", both("Transformer rating"), unit.Power, func(p *part) *float64 {
			if p.Kind == diagram.Supply {
				return &p.Source.Power
			}
			return &p.Transformer.Power
		}).in("kVA", 50_000),
		quantityColumn("feed impedance", both("Transformer impedance"), unit.Percent, func(p *part) *float64 {
			if p.Kind == diagram.Supply {
				return &p.Source.Reactance
			}
			return &p.Transformer.Impedance
		}),
	}
}

// feedName is what people call the transformer: that of a supply is the
// utility's.
func feedName(doc *diagram.Document, feed part) string {
	if feed.Kind == diagram.Supply {
		return "transformer of the utility at " + doc.NameOf(feed.ID)
	}
	return doc.NameOf(feed.ID)
}

// feedKey is one value of one transformer.
type feedKey struct {
	feed diagram.ID
	slot int
}

// feedCell is what the row of a board says of the transformer that feeds it.
type feedCell struct {
	row   int // from 0
	board diagram.ID
	proposal[part]
	same bool // it is what the drawing says already
}

// feedCell keeps what a row says of the transformer, until every row that is fed
// from it has been read.
func (x *reading) feedCell(n, slot int, board part, cell string) {
	if strings.TrimSpace(cell) == "" {
		return
	}
	feed, wrong := x.feedOf(n, board)
	if wrong != (unread{}) {
		x.tell(n, slot, wrong)
		return
	}
	p, differs, err := propose(feedColumns(), x.slots[slot].at, feed, cell, x.habits)
	if err != nil {
		x.tell(n, slot, reason(err))
		return
	}
	if !differs {
		p.next, p.to = feed, orSilent(feedColumns()[x.slots[slot].at], feed, x.habits)
	}
	key := feedKey{feed.ID, slot}
	x.feeds[key] = append(x.feeds[key], feedCell{n, board.ID, p, !differs})
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

// settleFeeds makes the changes of transformers. What rows say of the same one
// must agree, whether it is new or not: the table has it in one of them, and else
// a table that is read again would change it back.
func (x *reading) settleFeeds() {
	for _, key := range sortedKeys(x.feeds) {
		cells := x.feeds[key]
		first := cells[0]
		switch {
		case slices.ContainsFunc(cells, func(c feedCell) bool { return c.next != first.next }):
			x.tell(first.row, key.slot, x.conflict(key, cells))
		case !first.same:
			x.change(first.row, key.slot, Change{
				Board: first.board, Record: key.feed, Name: x.feedName(key.feed), From: first.from, To: first.to,
				Note: x.feedNote(key.feed, first.board), alter: alterPart(key.feed, first.set),
			})
		}
	}
}

func sortedKeys(feeds map[feedKey][]feedCell) []feedKey {
	return slices.SortedFunc(maps.Keys(feeds), func(a, b feedKey) int {
		return cmp.Or(diagram.CompareID(a.feed, b.feed), cmp.Compare(a.slot, b.slot))
	})
}

func (x *reading) feedName(id diagram.ID) string {
	feed, _ := x.doc.Part(id)
	return oneLine(feedName(x.doc, feed))
}

// conflict says which rows say what.
func (x *reading) conflict(key feedKey, cells []feedCell) unread {
	var views []string
	for i, c := range cells {
		if slices.ContainsFunc(cells[:i], func(before feedCell) bool { return before.next == c.next }) {
			continue
		}
		var rows []int
		for _, other := range cells[i:] {
			if other.next == c.next {
				rows = append(rows, other.row+1)
			}
		}
		views = append(views, speakers(rows)+" "+c.to)
	}
	return unread{fmt.Sprintf("the rows disagree about %s: %s", x.feedName(key.feed), list(views)), "leave one of them; none was taken"}
}

// speakers returns rows as the subject of what they say.
func speakers(rows []int) string {
	if len(rows) == 1 {
		return "row " + numbers(rows) + " says"
	}
	return "rows " + numbers(rows) + " say"
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
