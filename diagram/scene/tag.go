package scene

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// tag is a block of text that belongs to a record: on a card with a badge for
// what is judged, and plain for the rest.
type tag struct {
	rows   []row
	card   bool
	badge  string     // letter of the verdict, or nothing
	role   draw.Role  // of the card's edge and the badge
	gauge  Gauge      // of a card
	size   geom.Point // width and height
	box    geom.Rect  // where it lies; of no width where it is not shown
	place  int        // which of the part's places that is, counted from 1; 0 is none of them
	leader geom.Segment
}

// row is one line of a tag.
type row struct {
	text, right string // right stands at the right edge, faint
	size        float64
	bold        bool
	role        draw.Role
}

// Sizes of tags, in mm.
const (
	nameSize   = 3.2
	lineSize   = 3.0
	faintSize  = 2.6
	rowPitch   = 3.8
	rowFirst   = 3.7 // from the top of a card to its first baseline
	cardTail   = 1.5 // from the last baseline down
	cardStep   = 0.5 // of a card's width, so that cards recur and are drawn once
	badgeWidth = 5.2
	cardPad    = 1.7
	nameGap    = 3.5 // between a name and what stands at its right
	nameLimit  = 64  // of a name's width
	plainFirst = 2.7 // from the top of plain text to its first baseline
	plainPitch = 3.5
	plainTail  = 0.8
)

func (t *tag) placed() bool { return t.box.Width() > 0 }

// measured returns the tag with its size.
func (t tag) measured() tag {
	t.size = t.measure()
	return t
}

func (t *tag) measure() geom.Point {
	if len(t.rows) == 0 {
		return geom.Pt(badgeWidth, badgeWidth)
	}
	width := 0.0
	for _, r := range t.rows {
		width = math.Max(width, r.width())
	}
	rows := float64(len(t.rows) - 1)
	if !t.card {
		return geom.Pt(width, plainFirst+plainPitch*rows+plainTail)
	}
	width = math.Ceil((t.textLeft()+width+cardPad)/cardStep) * cardStep
	height := rowFirst + rowPitch*rows + cardTail
	if t.hasGauge() {
		height += gaugeRoom
	}
	return geom.Pt(width, height)
}

// textLeft is where the text of a card begins.
func (t *tag) textLeft() float64 {
	if t.badge == "" {
		return cardPad
	}
	return badgeWidth + cardPad
}

func (r row) width() float64 {
	width := draw.TextWidth(r.text, r.size, r.bold)
	if r.right != "" {
		width += nameGap + draw.TextWidth(r.right, faintSize, false)
	}
	return width
}

// newTag returns what the tag of a part says, not yet placed.
func (b *builder) newTag(p *diagram.Part, mark Mark, marked bool) tag {
	if b.options.HideTags {
		return tag{}
	}
	switch {
	case p.Kind == diagram.Note:
		return tag{}
	case p.Kind.IsJudged():
		return card(p, mark, marked)
	}
	rows := []row{}
	if p.Kind != diagram.Junction || p.Name != "" {
		rows = append(rows, row{text: shorten(nameOf(p), nameSize, true), size: nameSize, bold: true})
	}
	for _, text := range b.facts(p) {
		rows = append(rows, row{text: text, size: faintSize, role: draw.RoleFaint})
	}
	return tag{rows: rows}.measured()
}

func nameOf(p *diagram.Part) string {
	if p.Name == "" {
		return string(p.ID)
	}
	return p.Name
}

func card(p *diagram.Part, mark Mark, marked bool) tag {
	t := tag{card: true, badge: mark.Letter, role: draw.RoleFaint}
	name := row{text: shorten(nameOf(p), nameSize, true), size: nameSize, bold: true}
	if p.Kind.IsBoard() {
		name.right = mark.System
		if name.right == "" && p.System.Known() {
			name.right = p.System.String()
		}
	}
	if marked {
		t.role = mark.Role
	}
	t.rows = append(make([]row, 0, 1+len(mark.Lines)), name)
	t.gauge = mark.Gauge
	for _, line := range mark.Lines {
		t.rows = append(t.rows, row{text: line, size: lineSize})
	}
	return t.measured()
}

// facts returns what stands below the name of a part that is not judged.
func (b *builder) facts(p *diagram.Part) []string {
	var lines []string
	switch p.Kind {
	case diagram.Supply, diagram.Generator:
		lines = append(lines, b.source(p))
	case diagram.Transformer:
		lines = append(lines, b.rating(p))
	case diagram.TransferSwitch:
		lines = append(lines, "to "+string(p.Transfer.Selected()))
	}
	if ends := b.marks.Breaks[p.ID]; ends != "" {
		lines = append(lines, ends)
	}
	return lines
}

func (b *builder) source(p *diagram.Part) string {
	text := unit.Terms(p.System.String(), b.options.Convention)
	switch {
	case p.Source.FaultCurrent > 0:
		text += ", " + b.format(p.Source.FaultCurrent, unit.Current)
	case p.Source.Power > 0:
		text += ", " + b.format(p.Source.Power, unit.Power)
	}
	return text
}

// rating returns the power of a transformer and its windings.
func (b *builder) rating(p *diagram.Part) string {
	windings := unit.Terms(p.Transformer.Primary.String()+" → "+p.System.String(), b.options.Convention)
	if p.Transformer.Power > 0 {
		return b.format(p.Transformer.Power, unit.Power) + ", " + windings
	}
	return windings
}

func protectorTag(lines []string) tag {
	var t tag
	for _, line := range lines {
		t.rows = append(t.rows, row{text: shorten(line, faintSize, false), size: faintSize, role: draw.RoleFaint})
	}
	return t.measured()
}

// shorten cuts a text that is wider than a name may be.
func shorten(text string, size float64, bold bool) string {
	if draw.TextWidth(text, size, bold) <= nameLimit {
		return text
	}
	var end int
	for i := range text {
		if draw.TextWidth(text[:i], size, bold) > nameLimit-size {
			break
		}
		end = i
	}
	return text[:end] + "…"
}
