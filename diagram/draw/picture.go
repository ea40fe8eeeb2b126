package draw

import (
	"slices"
	"sync/atomic"

	"clampline/diagram/geom"
)

// Picture is what is drawn on a sheet, in order. The zero value is an empty
// picture, ready for use.
type Picture struct {
	shapes []Shape
	texts  []Text
	stamps []Stamp
	images []Image
	items  []entry
	bounds []geom.Rect // of each item; apart, because culling reads them all
	groups []group
	open   int                          // number of the innermost open group, counted from 1; 0 is none
	turned atomic.Pointer[[4]geom.Rect] // see extent; nil where nobody has asked
}

type kind uint8

const (
	shapeItem kind = iota
	textItem
	stampItem
	imageItem
)

// entry is one item: its kind, its place in the list of that kind, and the
// number of its group.
type entry struct {
	kind  kind
	index int32
	group int32
}

type group struct {
	id     string
	parent int
}

// NewPicture returns an empty picture.
func NewPicture() *Picture { return new(Picture) }

// Room is a number of things to be drawn.
type Room struct{ Shapes, Texts, Stamps, Groups int }

// Grow makes room for what is about to be drawn, so that a large picture is
// not copied while it grows. It need not be exact.
func (p *Picture) Grow(by Room) {
	items := by.Shapes + by.Texts + by.Stamps
	p.shapes = slices.Grow(p.shapes, by.Shapes)
	p.texts = slices.Grow(p.texts, by.Texts)
	p.stamps = slices.Grow(p.stamps, by.Stamps)
	p.items = slices.Grow(p.items, items)
	p.bounds = slices.Grow(p.bounds, items)
	p.groups = slices.Grow(p.groups, by.Groups)
}

// Stroke draws the path with the pen.
func (p *Picture) Stroke(path Path, pen Pen) {
	p.Shape(Shape{Path: path, Fill: RoleNone, Pen: pen})
}

// Fill fills the path: what it winds round, open pieces closed.
func (p *Picture) Fill(path Path, role Role) {
	p.Shape(Shape{Path: path, Fill: role})
}

// FillStroke fills the path and draws its outline with the pen.
func (p *Picture) FillStroke(path Path, fill Role, pen Pen) {
	p.Shape(Shape{Path: path, Fill: fill, Pen: pen})
}

// Shape draws a shape.
func (p *Picture) Shape(shape Shape) {
	bounds := shape.Bounds()
	if shape.Fill == RoleNone && !shape.Pen.Draws() || !finite(bounds) {
		return
	}
	shape.strands = nil
	if shape.Pen.Dash == Double {
		shape.strands = shape.Pen.Strands(shape.Path)
	}
	p.shapes = append(p.shapes, shape)
	p.add(shapeItem, len(p.shapes)-1, bounds)
}

// Text writes one line of text. Control characters are taken out of it.
func (p *Picture) Text(text Text) {
	text.String = printable(text.String)
	bounds := text.Bounds()
	if text.String == "" || text.Role == RoleNone || !(text.Size > 0) || !finite(bounds) {
		return
	}
	p.texts = append(p.texts, text)
	p.add(textItem, len(p.texts)-1, bounds)
}

// Place draws a shared picture at a point, turned by quarter turns clockwise
// about its origin, with its ink drawn in role; see [Stamp] for the key.
func (p *Picture) Place(key string, sub *Picture, at geom.Point, turn int, role Role) {
	p.place(Stamp{Key: key, Picture: sub, At: at, Turn: turn & 3, Role: role})
}

// Image draws an image in its box; one without data or room is left out.
func (p *Picture) Image(image Image) {
	if image.Data == "" || !finite(image.Box) {
		return
	}
	p.images = append(p.images, image)
	p.add(imageItem, len(p.images)-1, image.Box)
}

func (p *Picture) place(stamp Stamp) {
	bounds := stamp.Bounds()
	if !finite(bounds) {
		return
	}
	p.stamps = append(p.stamps, stamp)
	p.add(stampItem, len(p.stamps)-1, bounds)
}

func (p *Picture) add(kind kind, index int, bounds geom.Rect) {
	p.items = append(p.items, entry{kind, int32(index), int32(p.open)})
	p.bounds = append(p.bounds, bounds)
}

// finite reports whether r holds anything and all of it is somewhere.
func finite(r geom.Rect) bool { return !r.IsEmpty() && r.Min.Finite() && r.Max.Finite() }

// Begin opens a group with the given id inside the one that is open. What is
// drawn until its End belongs to it.
func (p *Picture) Begin(id string) {
	p.groups = append(p.groups, group{id, p.open})
	p.open = len(p.groups)
}

// End closes the innermost open group. It panics where none is open.
func (p *Picture) End() {
	if p.open == 0 {
		panic("draw: End without Begin")
	}
	p.open = p.groups[p.open-1].parent
}

// Append draws what other draws, mapped by m, inside the group that is open.
// Pens and text scale along; text stays upright.
func (p *Picture) Append(other *Picture, m geom.Affine) { p.append(other, m, RoleInk) }

func (p *Picture) append(other *Picture, m geom.Affine, tint Role) {
	moved := newMapping(m, tint)
	base, within := len(p.groups), p.open
	for _, g := range other.groups {
		if g.parent > 0 {
			p.groups = append(p.groups, group{g.id, g.parent + base})
		} else {
			p.groups = append(p.groups, group{g.id, within})
		}
	}
	for _, item := range other.items {
		p.open = within
		if item.group > 0 {
			p.open = int(item.group) + base
		}
		p.copy(other, item, moved)
	}
	p.open = within
}

func (p *Picture) copy(other *Picture, item entry, by mapping) {
	switch item.kind {
	case shapeItem:
		p.Shape(by.shape(other.shapes[item.index]))
	case textItem:
		p.Text(by.text(other.texts[item.index]))
	case stampItem:
		stamp := other.stamps[item.index]
		if turn, ok := quarterTurn(by.affine); ok {
			p.place(stamp.moved(by, turn))
			return
		}
		p.append(stamp.Picture, stamp.Affine().Then(by.affine), stamp.Role.tinted(by.tint))
	case imageItem:
		image := other.images[item.index]
		image.Box = by.affine.ApplyRect(image.Box)
		p.Image(image)
	}
}

// extent returns the rectangle that holds all ink of the picture placed at the
// origin, turned by quarter turns. It is worked out once: a picture that is
// placed does not change any more. Goroutines that ask at once find the same.
func (p *Picture) extent(turn int) geom.Rect {
	known := p.turned.Load()
	if known == nil {
		known = new([4]geom.Rect)
		for i := range known {
			known[i] = p.measure(newMapping(geom.Turn(i), RoleInk), i)
		}
		p.turned.Store(known)
	}
	return known[turn&3]
}

func (p *Picture) measure(by mapping, turn int) geom.Rect {
	out := geom.Empty()
	for i, item := range p.items {
		switch item.kind {
		case textItem:
			out = out.Union(by.text(p.texts[item.index]).Bounds())
		case stampItem:
			out = out.Union(p.stamps[item.index].moved(by, turn).Bounds())
		default:
			out = out.Union(by.affine.ApplyRect(p.bounds[i]))
		}
	}
	return out
}

// Bounds returns the rectangle that holds all ink, empty for an empty picture.
func (p *Picture) Bounds() geom.Rect {
	out := geom.Empty()
	for _, r := range p.bounds {
		out = out.Union(r)
	}
	return out
}

// Len returns the number of items.
func (p *Picture) Len() int { return len(p.items) }

// Items returns what the picture draws, first to last.
func (p *Picture) Items() []Item {
	out := make([]Item, len(p.items))
	for i := range out {
		out[i] = p.item(i)
	}
	return out
}

func (p *Picture) item(i int) Item {
	from := p.items[i]
	out := Item{Bounds: p.bounds[i]}
	if from.group > 0 {
		out.Group = p.groups[from.group-1].id
	}
	switch from.kind {
	case shapeItem:
		out.Shape = &p.shapes[from.index]
	case textItem:
		out.Text = &p.texts[from.index]
	case stampItem:
		out.Stamp = &p.stamps[from.index]
	case imageItem:
		out.Image = &p.images[from.index]
	}
	return out
}
