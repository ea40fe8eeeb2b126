package edit

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/scene"
)

// Overlay returns what lies over the sheet: the selection, what is hovered,
// guides, and what the tool is about to do. It must not be drawn on.
func (e *Editor) Overlay() *draw.Picture {
	if e.overlay == nil {
		o := e.selectionOverlay()
		e.tool.show(e, &o)
		e.overlay = o.Picture()
	}
	return e.overlay
}

func (e *Editor) selectionOverlay() scene.Overlay {
	var o scene.Overlay
	sheet := e.Scene()
	for _, id := range e.selected {
		if path := sheet.FeederPath(id); path != nil {
			o.Paths = append(o.Paths, path)
			o.Labels = append(o.Labels, sheet.FeederLabel(id))
		} else if box, ok := sheet.Box(id); ok {
			o.Selected = append(o.Selected, box)
		}
	}
	if part, ok := e.onlyPart(); ok {
		o.Handles = barEnds(part)
	}
	return o
}

// onlyPart returns the part that is selected where nothing else is.
func (e *Editor) onlyPart() (diagram.Part, bool) {
	if len(e.selected) != 1 {
		return diagram.Part{}, false
	}
	return e.doc.Part(e.selected[0])
}

// Cursor returns the shape of the pointer over the sheet.
func (e *Editor) Cursor() Cursor { return e.tool.cursor(e) }
