package page

import (
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Heading stands above what it is the heading of, on the same page. A reader's list of
// contents names those that are not Minor.
type Heading struct {
	Text  string
	Minor bool
}

func (h Heading) lay(room geom.Point) []piece {
	t, before := headingType, 5.0
	if h.Minor {
		t, before = bodyType.bold(), 3.0
	}
	texts := t.wrap(unit.VisibleLines(h.Text), room.X)
	if len(texts) == 0 {
		return nil
	}
	texts = most(texts, 4, room.X, t)
	out := piece{picture: draw.NewPicture(), before: before, keep: true}
	out.height = lines(out.picture, geom.Point{}, room.X, texts, t)
	if !h.Minor {
		out.mark = oneLine(h.Text)
	}
	return []piece{out}
}

// Paragraph is text that wraps. A page has no single line of it.
type Paragraph struct {
	Text  string
	Faint bool // small and grey: a remark
	Bold  bool
}

func (b Paragraph) typed() Type {
	t := bodyType
	if b.Faint {
		t = faintType
	}
	if b.Bold {
		t = t.bold()
	}
	return t
}

func (b Paragraph) lay(room geom.Point) []piece {
	t := b.typed()
	texts := t.wrap(unit.VisibleLines(b.Text), room.X)
	out := make([]piece, len(texts))
	for i := range texts {
		out[i] = piece{picture: draw.NewPicture()}
		out[i].height = lines(out[i].picture, geom.Point{}, room.X, texts[i:i+1], t)
		out[i].keep = i+1 < len(texts) && (i == 0 || i+2 == len(texts))
	}
	if len(out) > 0 {
		out[0].before = 1.6
	}
	return out
}

// Pair is a line of what is known: a word and what it says.
type Pair struct{ Key, Value string }

// Pairs are lines of what is known, their words in grey at the left. Those without a
// value are left out.
type Pairs []Pair

func (b Pairs) lay(room geom.Point) []piece {
	const most, between = 0.35, 4.0
	left := 0.0
	for _, p := range b {
		left = max(left, faintType.width(oneLine(p.Key)))
	}
	left = min(left, most*room.X)
	var out []piece
	for _, p := range b {
		if p.Value == "" {
			continue
		}
		value := bodyType.wrap(unit.VisibleLines(p.Value), room.X-left-between)
		key := faintType.wrap(unit.VisibleLines(p.Key), left+1e-6)
		row := tornRow([]cell{{texts: key, at: 0, width: left, t: faintType, drop: bodyType.baseline() - faintType.baseline()}, {texts: value, at: left + between, width: room.X - left - between, t: bodyType}}, room.Y, 0.8)
		out = append(out, row...)
	}
	if len(out) > 0 {
		out[0].before = 1.6
	}
	return out
}

// Checks are things to do, each with a square to tick.
type Checks struct {
	Items    []string
	Numbered bool // they are done in this order
}

func (b Checks) lay(room geom.Point) []piece {
	const side, left, number, space = 3.0, 5.0, 6.0, 1.4
	var out []piece
	for i, item := range b.Items {
		at := left
		if b.Numbered {
			at += number
		}
		texts := bodyType.wrap(unit.VisibleLines(item), room.X-at)
		rows := tornRow([]cell{{texts: texts, at: at, width: room.X - at, t: bodyType}}, room.Y, space)
		if len(rows) == 0 {
			continue
		}
		Square(rows[0].picture, geom.Pt(0, space+bodyType.baseline()), side, false)
		if b.Numbered {
			Write(rows[0].picture, geom.Pt(left, space+bodyType.baseline()), number-1, count(i+1), bodyType)
		}
		out = append(out, rows...)
	}
	if len(out) > 0 {
		out[0].before = 1.6
	}
	return out
}

// Signatures are lines to write on, beside each other where there is room.
type Signatures []string

func (b Signatures) lay(room geom.Point) []piece {
	const each, height, between = 70.0, 11.0, 6.0
	columns := max(1, min(len(b), int((room.X+between)/(each+between))))
	width := (room.X - between*float64(columns-1)) / float64(columns)
	var out []piece
	for i, label := range b {
		if i%columns == 0 {
			out = append(out, piece{picture: draw.NewPicture(), height: height, keep: true})
		}
		p, x := out[len(out)-1].picture, float64(i%columns)*(width+between)
		word := min(faintType.width(oneLine(label)), width/2)
		Write(p, geom.Pt(x, height-1.2), word+1e-6, oneLine(label), faintType)
		rule(p, x+word+2, x+width, height-0.8, draw.RoleInk, 0.25)
	}
	if len(out) > 0 {
		out[len(out)-1].keep = false
	}
	return out
}

// Space is a distance between blocks, mm.
type Space float64

func (b Space) lay(room geom.Point) []piece { return []piece{{height: min(float64(b), room.Y)}} }

// Break begins a page, where the one at hand has anything on it.
type Break struct{}

func (Break) lay(geom.Point) []piece { return []piece{{breaks: true}} }

// Together are blocks that stay on one page as long as one has room for them.
type Together []Block

func (b Together) lay(room geom.Point) []piece {
	var out []piece
	for _, one := range b {
		out = append(out, one.lay(room)...)
	}
	for i := range out[:max(0, len(out)-1)] {
		out[i].keep = true
	}
	return out
}
