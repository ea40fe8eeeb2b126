package draw

import "clampline/diagram/geom"

// Painter is what a back-end implements: it is told what to draw, in order.
// It turns millimetres into its own unit and roles into colours.
type Painter interface {
	// Begin opens a group and End closes it. They are always paired.
	Begin(id string)
	End()
	// Shape fills and strokes a path; a stroke is its Strands.
	Shape(Shape)
	// Text writes one line of printable text, upright.
	Text(Text)
}

// Placer is a painter that draws stamps in its own way. For other painters
// Paint takes a stamp apart into shapes and text.
type Placer interface {
	Painter
	Place(Stamp)
}

// Imager is a painter that draws images of pixels. Other painters leave them out.
type Imager interface {
	Painter
	Image(Image)
}

// Paint replays the picture.
func Paint(picture *Picture, painter Painter) {
	replay(picture, painter, func(geom.Rect) bool { return true })
}

// PaintWithin replays those items of the picture whose bounds meet the window.
func PaintWithin(picture *Picture, window geom.Rect, painter Painter) {
	replay(picture, painter, window.Overlaps)
}

func replay(picture *Picture, painter Painter, shown func(geom.Rect) bool) {
	placer, _ := painter.(Placer)
	imager, _ := painter.(Imager)
	groups := walker{picture.groups, painter, 0}
	for i, item := range picture.items {
		if !shown(picture.bounds[i]) {
			continue
		}
		groups.enter(int(item.group))
		switch item.kind {
		case shapeItem:
			painter.Shape(picture.shapes[item.index])
		case textItem:
			painter.Text(picture.texts[item.index])
		case stampItem:
			if stamp := picture.stamps[item.index]; placer != nil {
				placer.Place(stamp)
			} else {
				replay(stamp.Expand(), painter, shown)
			}
		case imageItem:
			if imager != nil {
				imager.Image(picture.images[item.index])
			}
		}
	}
	groups.enter(0)
}

// walker keeps the painter's groups in step with the item at hand.
type walker struct {
	groups  []group
	painter Painter
	at      int
}

// enter closes the groups that do not hold the wanted one and opens those that
// do. A group's number is greater than that of the group it lies in.
func (w *walker) enter(want int) {
	switch {
	case want > w.at:
		w.enter(w.groups[want-1].parent)
		w.painter.Begin(w.groups[want-1].id)
		w.at = want
	case want < w.at:
		w.painter.End()
		w.at = w.groups[w.at-1].parent
		w.enter(want)
	}
}
