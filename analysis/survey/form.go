package survey

import (
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// form draws the page of a board.
func form(s Sheet, n, of int) *draw.Picture {
	v := newCanvas(s.Convention)
	v.head(s, "Survey sheet", n, of)
	v.nameplate(s)
	v.faultCurrent(s)
	v.board(s)
	v.section("Protectors that are there")
	here := s.Protectors[:min(len(s.Protectors), onForm)]
	v.attached(here, max(3, len(here)+1))
	v.photos(s)
	foot := v.footHeight()
	v.remarks(s, v.bottom-foot-v.y-sectionGap)
	v.foot()
	return v.picture
}

// head draws the title block: at the left what the page is about, at the right
// where it belongs.
func (v *canvas) head(s Sheet, title string, n, of int) {
	const height, share = 21.0, 0.6
	middle := v.left + v.width()*share
	room := middle - v.left - 4
	at := geom.Pt(v.left, v.y+3)
	v.write(at, room, title, style{size: 3, role: draw.RoleFaint})
	v.write(at.Add(geom.Pt(0, 7)), room, s.Name, style{size: 5.6, bold: true})
	kind := unit.SentenceCase(string(s.Kind))
	v.write(at.Add(geom.Pt(0, 12)), room, kind+" ("+string(s.Board)+"), fed from:", style{size: 2.6, role: draw.RoleFaint})
	v.write(at.Add(geom.Pt(0, 15.8)), room, s.FedFrom, style{size: 2.6})

	box := geom.RectOf(geom.Pt(middle, v.y), geom.Pt(v.right, v.y+height-2))
	v.picture.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: 0.35})
	at, width := box.Min.Add(geom.Pt(2, 4.4)), box.Width()-4
	v.write(at, width, s.Title, style{size: 3, bold: true})
	v.write(at.Add(geom.Pt(0, 4.2)), width, orNone("Site: ", s.Site), style{size: 2.6})
	v.write(at.Add(geom.Pt(0, 8.4)), width, "Plan: "+s.Plan, style{size: 2.6})
	v.write(at.Add(geom.Pt(0, 12.6)), width, fmt.Sprintf("Page %d of %d", n, of), style{size: 2.6})
	v.y += height
	v.write(geom.Pt(v.left, v.y+1.5), v.width(),
		"What is printed in a box is on record. ▸ marks what the drawing says: look whether it is so, and write down what is different.", labelStyle)
	v.y += 1.5
}

// orNone returns a label with its text, or with a line to write on.
func orNone(label, text string) string {
	if text == "" {
		return label + strings.Repeat("_", 26)
	}
	return label + text
}

func (v *canvas) nameplate(s Sheet) {
	v.section("Nameplate: what the board is made for")
	c := s.Convention
	v.row(rowHeight,
		v.field(0.4, s.Line(keyVoltage), "V"), v.field(0.25, s.Line("frequency"), "Hz"), v.ticks(0.35, s.Line(keyNeutral), "yes", "no"))
	v.row(rowHeight, v.ticks(1, s.Line(keyWiring), optionWords(optionsOfPart("system.wiring"), c)...))
	line := s.Line("earthing")
	v.row(rowHeight, v.ticks(1, line, earthingWords(c, line)...))
}

func optionWords(options []option, c unit.Convention) []string {
	var out []string
	for _, o := range options {
		out = append(out, o.words.in(c))
	}
	return out
}

// earthingWords returns the ways of earthing that the convention knows, and the
// one that is on the line where it is of the other.
func earthingWords(c unit.Convention, line Line) []string {
	var out []string
	for _, o := range optionsOfPart("system.earthing") {
		word := o.words.in(c)
		if diagram.Earthing(o.value).IsIEC() == (c == unit.IEC) || word == line.Value || word == line.Drawing {
			out = append(out, word)
		}
	}
	return out
}

func (v *canvas) faultCurrent(s Sheet) {
	v.section("Fault current, or the transformer that it follows from")
	v.row(rowHeight,
		v.field(0.36, Line{Label: "Fault current marked on it, or told by the utility", Value: s.Line(keyFault).Value}, "kA"),
		v.ticks(0.36, Line{Label: "Where from"}, "label", "utility", "study"),
		v.field(0.28, Line{Label: "Fault current by the drawing", Drawing: s.Reckoned}, "not known"))
	power, impedance := Line{Label: "Transformer rating"}, Line{Label: "Transformer impedance"}
	if s.Feed.ID != "" {
		power, impedance = s.Feed.Lines[0], s.Feed.Lines[1]
	}
	v.row(rowHeight,
		v.field(0.44, Line{Label: "Transformer that feeds it", Drawing: s.Feed.Name}, ""),
		v.field(0.28, power, "kVA"), v.field(0.28, impedance, "%"))
}

func (v *canvas) board(s Sheet) {
	v.section("Board")
	main := s.Line("main")
	v.row(rowHeight,
		v.field(0.25, s.Line("rating"), "A"), v.field(0.35, Line{Label: main.Label + " (or lugs only)", Value: main.Value}, "A"),
		v.field(0.2, s.Line("spaces"), "poles"), v.field(0.2, s.Line("free"), "poles"))
	v.row(rowHeight, v.field(0.6, s.Line("free positions"), "numbers as marked"), v.ticks(0.4, s.Line("mounting"), "surface", "flush"))
	v.row(rowHeight,
		v.ticks(0.3, s.Line("service"), "yes", "no"), v.ticks(0.34, s.Line("bonded"), "yes", "no"), v.ticks(0.36, s.Line("structure"), "yes", "no"))
	lead := s.Line("short lead")
	lead.Label = "Where a protector would have the shortest leads: side, height, opening, breaker beside the bars"
	v.row(rowHeight+2, v.field(1, lead, ""))
}

// photos lists what is to be photographed.
func (v *canvas) photos(s Sheet) {
	v.section("Photos to take, with all covers on")
	const pitch = 4.4
	for _, list := range [][]string{
		{"nameplate", "front and its surroundings", "circuit directory", "main breaker", "free positions"},
		{"places beside for a protector", "labels and warnings", "transformer nameplate", "protector and indicator", "meter or service"},
	} {
		step := v.width() / float64(len(list))
		for i, words := range list {
			at := geom.Pt(v.left+step*float64(i), v.y+3.2)
			v.square(at, false)
			v.write(at.Add(geom.Pt(tickSide+1.2, 0)), step-tickSide-2.4, words, style{size: 2.5})
		}
		v.y += pitch
	}
	v.y += 0.6
}

// remarks draws what is left of the page as a box to write in, ruled.
func (v *canvas) remarks(s Sheet, height float64) {
	const pitch = 6.5
	v.y += sectionGap
	note := s.Line("note")
	v.row(height, cell{1, func(box geom.Rect) {
		v.label(box, "Remarks and sketch")
		at := geom.Pt(box.Min.X+inset, box.Min.Y+7)
		for y := at.Y + 1.6; y < box.Max.Y-2; y += pitch {
			v.picture.Stroke(draw.Line(geom.Pt(box.Min.X+inset, y), geom.Pt(box.Max.X-inset, y)), draw.Pen{Role: draw.RoleGrid, Width: 0.15})
		}
		v.paragraph(at, box.Width()-2*inset, pitch, max(1, int((box.Height()-5)/pitch)), note.Value, valueStyle)
	}})
}

// footHeight is how much of the page the foot takes, mm.
func (v *canvas) footHeight() float64 {
	return rowHeight + 1.5 + float64(len(v.cautions()))*smallPitch + 0.5
}

// cautions returns the lines of the cautions.
func (v *canvas) cautions() []string {
	return symbol.Wrap(cautionText(v.convention), smallSize, false, v.width())
}

// foot draws who looked, and the cautions.
func (v *canvas) foot() {
	v.y = v.bottom - v.footHeight()
	v.row(rowHeight,
		v.field(0.34, Line{Label: "Surveyed by"}, ""), v.field(0.2, Line{Label: "Date"}, ""),
		v.field(0.46, Line{Label: "Qualified person, if a cover was opened: name and signature"}, ""))
	v.y += 1.5
	for _, line := range v.cautions() {
		v.y += smallPitch
		v.write(geom.Pt(v.left, v.y-0.6), v.width()+1, line, style{size: smallSize})
	}
}
