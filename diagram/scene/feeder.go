package scene

import (
	"strconv"
	"strings"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/route"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// feeder is a feeder in its place.
type feeder struct {
	id     diagram.ID
	line   geom.Polyline
	bounds geom.Rect
	head   diagram.SwitchData
	room   geom.Rect // of the switch at its head; empty where none is drawn
	pieces []Piece
	texts  [2]string // of its label, the second one mostly empty
	label  geom.Rect
}

// switchStub is how far a feeder with a switch at its head runs straight, in
// mm.
const switchStub = symbol.SwitchLength + 2

// leadFeeders routes every feeder round the parts.
func (b *builder) leadFeeders(doc *diagram.Document) {
	_, count, _ := doc.Count()
	runs := make([]route.Run, 0, count)
	b.feeders = make([]feeder, 0, count)
	for record := range doc.Feeders() {
		run, ok := b.run(&record)
		if !ok {
			continue
		}
		runs = append(runs, run)
		b.feeders = append(b.feeders, feeder{
			id: record.ID, head: record.Switch,
			pieces: b.marks.Feeders[record.ID].Pieces, texts: b.feederTexts(&record),
		})
	}
	for i, line := range route.All(runs, b.taken) {
		f := &b.feeders[i]
		f.line, f.bounds = line, line.Bounds()
		f.room = f.headBox()
		b.taken.line(line)
		if !f.room.IsEmpty() {
			b.taken.take(f.room)
		}
	}
	b.takeBreaks()
}

// takeBreaks takes the room of the signs at which cover ends.
func (b *builder) takeBreaks() {
	for i := range b.parts {
		if box := b.parts[i].breakBox(); box.Width() > 0 {
			b.taken.take(box)
		}
	}
}

func (b *builder) run(record *diagram.Feeder) (route.Run, bool) {
	from, okFrom := b.routeTerminal(record.From)
	to, okTo := b.routeTerminal(record.To)
	if record.Switch.Kind != "" || record.Switch.Open {
		from.Stub = switchStub
	}
	return route.Run{From: from, To: to}, okFrom && okTo
}

// routeTerminal returns the end as routes see it, and false where there is
// none.
func (s *Scene) routeTerminal(end diagram.End) (route.Terminal, bool) {
	i, ok := s.partAt[end.Part]
	if !ok {
		return route.Terminal{}, false
	}
	return s.parts[i].terminal(end.Port, i)
}

// feederTexts returns the lines of a feeder's label: what it is called, how
// long and how thick it is, and what ends here.
func (b *builder) feederTexts(f *diagram.Feeder) [2]string {
	words := make([]string, 0, 3)
	if f.Name != "" {
		words = append(words, f.Name)
	}
	if f.Length > 0 {
		words = append(words, b.format(f.Length, unit.Length))
	}
	if f.Area > 0 {
		size := b.format(f.Area, unit.Area)
		if f.Parallel > 1 {
			size = strconv.Itoa(f.Parallel) + " × " + size
		}
		words = append(words, size)
	}
	text, ends := strings.Join(words, ", "), b.marks.Breaks[f.ID]
	if text == "" {
		return [2]string{ends}
	}
	return [2]string{text, ends}
}

// lines returns the lines of the label.
func (f *feeder) lines() []string {
	count := 0
	for count < len(f.texts) && f.texts[count] != "" {
		count++
	}
	return f.texts[:count]
}

// headRoom reports whether the first piece has room for the switch.
func (f *feeder) headRoom() bool {
	return span(f.line[0], f.line[1]) >= symbol.SwitchLength
}

// headTurn returns by how many quarter turns the switch at the head is turned.
func (f *feeder) headTurn() int {
	step := f.line[1].Sub(f.line[0])
	switch {
	case step.X < 0:
		return 1
	case step.Y < 0:
		return 2
	case step.X > 0:
		return 3
	}
	return 0
}

// headBox returns the room of the switch at the head, or an empty rectangle.
func (f *feeder) headBox() geom.Rect {
	if f.head.Kind == "" && !f.head.Open || !f.headRoom() {
		return geom.Empty()
	}
	frame := geom.Turn(f.headTurn()).Then(geom.Translate(f.line[0]))
	return frame.ApplyRect(symbol.Switch(f.head).Outline)
}

// headRole returns the colour in which the feeder begins.
func (f *feeder) headRole() draw.Role {
	if len(f.pieces) > 0 && f.pieces[0].From <= 0 {
		return f.pieces[0].Role
	}
	return draw.RoleInk
}
