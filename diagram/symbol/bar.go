package symbol

import (
	"strconv"
	"sync"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Sizes of bus bars, in mm.
const (
	switchboardThickness = 2.4
	panelThickness       = 1.8
	switchboardSpan      = 60
	panelSpan            = 40
	leastSpan            = 10
)

// Thickness returns how thick the bus bar of a board is, in mm.
func Thickness(kind diagram.Kind) float64 {
	if kind == diagram.Switchboard {
		return switchboardThickness
	}
	return panelThickness
}

// Span returns the length of a board's bus bar or the width of a note, in mm:
// that of its record, or the usual one where the record has none.
func Span(part diagram.Part) float64 {
	usual := 0.0
	switch part.Kind {
	case diagram.Switchboard:
		usual = switchboardSpan
	case diagram.Panel:
		usual = panelSpan
	case diagram.Note:
		usual = noteWidth
	default:
		return 0
	}
	switch {
	case !(part.Span > 0):
		return usual
	case part.Span < leastSpan:
		return leastSpan
	}
	return part.Span
}

// bar is the heavy line of a bus, which feeders tap anywhere on both sides.
func bar(part diagram.Part) Symbol {
	span := Span(part)
	if span == switchboardSpan && part.Kind == diagram.Switchboard {
		return usualSwitchboard()
	}
	if span == panelSpan && part.Kind == diagram.Panel {
		return usualPanel()
	}
	return newBar(part.Kind, span)
}

var (
	usualSwitchboard = sync.OnceValue(func() Symbol { return newBar(diagram.Switchboard, switchboardSpan) })
	usualPanel       = sync.OnceValue(func() Symbol { return newBar(diagram.Panel, panelSpan) })
)

func newBar(kind diagram.Kind, span float64) Symbol {
	p := draw.NewPicture()
	thick := Thickness(kind)
	line(p, draw.Pen{Role: draw.RoleInk, Width: thick}, -span/2, 0, span/2, 0)
	return Symbol{
		Key:       string(kind) + "/" + strconv.FormatFloat(span, 'g', -1, 64),
		Picture:   p,
		Outline:   around(span/2, thick/2),
		Terminals: []Terminal{{At: geom.Pt(0, 0), Out: down, Span: span/2 - tapMargin}},
	}
}

// tapMargin is how far from the end of a bus bar the last tap lies, so that a
// feeder does not hang over the edge.
const tapMargin = 1.5
