package scene

import (
	"sync"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Scene is a document placed on the sheet, with the protectors of one plan.
// Use New.
type Scene struct {
	parts      []part // in the order of the ids, as are feeders and protectors
	partAt     map[diagram.ID]int
	feeders    []feeder
	protectors []protector
	gone       []protector // of another plan, that this one no longer has
	badges     map[diagram.ID]Badge
	badgeAt    map[diagram.ID]geom.Point // where the middle of each is
	legend     []LegendEntry
	options    Options
	walls      func() *space // where the parts are, for the route of a new feeder
	picture    func() *draw.Picture
}

// builder is a scene in the making.
type builder struct {
	*Scene
	before *Scene // the scene that it follows, or nil
	marks  Marks
	taken  *space // where nothing more may be drawn
	solid  *space // as taken, without lines; nil until a badge needs it
	texts  map[quantity]string
}

// quantity is what was written as text before: lengths and sizes recur.
type quantity struct {
	value     float64
	dimension unit.Dimension
}

// New places the document with the protectors of the plan. It keeps nothing of
// the document; the maps in marks must not change while the scene is in use.
func New(doc *diagram.Document, plan diagram.ID, marks Marks, options Options) *Scene {
	return build(nil, doc, plan, marks, options)
}

// Next places the document as New does, but that tags stay on the side where
// the scene has them as long as there is room: what is worked on beside them
// does not make them jump.
func (s *Scene) Next(doc *diagram.Document, plan diagram.ID, marks Marks, options Options) *Scene {
	return build(s, doc, plan, marks, options)
}

func build(before *Scene, doc *diagram.Document, plan diagram.ID, marks Marks, options Options) *Scene {
	b := builder{
		before: before,
		Scene:  &Scene{badges: marks.Badges, legend: marks.Legend, options: options},
		marks:  marks,
		texts:  map[quantity]string{},
	}
	b.placeParts(doc)
	b.taken = b.partWalls()
	b.leadFeeders(doc)
	b.hangProtectors(doc, plan)
	b.placeTags()
	b.placeLabels()
	b.markDifferences()
	b.placeBadges()
	b.before = nil // scenes don't hang on each other in a chain
	b.picture, b.walls = sync.OnceValue(b.paint), sync.OnceValue(b.partWalls)
	return b.Scene
}

func (b *builder) placeParts(doc *diagram.Document) {
	count, _, _ := doc.Count()
	b.parts, b.partAt = make([]part, 0, count), make(map[diagram.ID]int, count)
	for record := range doc.Parts() {
		b.partAt[record.ID] = len(b.parts)
		b.parts = append(b.parts, part{})
		p := &b.parts[len(b.parts)-1]
		p.put(&record)
		mark, marked := b.marks.Parts[p.id]
		if marked {
			p.role, p.dash = mark.Role, mark.Dash
		}
		p.ends = b.marks.Breaks[p.id]
		p.tag = b.newTag(&record, mark, marked)
	}
}

// partWalls returns the room that the parts take.
func (s *Scene) partWalls() *space {
	walls := newSpace(s.extent())
	for i := range s.parts {
		walls.wall(s.parts[i].box)
	}
	return walls
}

// extent returns the rectangle that holds the symbols of all parts.
func (s *Scene) extent() geom.Rect {
	out := geom.Empty()
	for i := range s.parts {
		out = out.Union(s.parts[i].box)
	}
	return out
}

// format writes a quantity in the options' convention.
func (b *builder) format(value float64, dimension unit.Dimension) string {
	key := quantity{value, dimension}
	text, ok := b.texts[key]
	if !ok {
		text = unit.Format(value, dimension, b.options.Convention)
		b.texts[key] = text
	}
	return text
}

// Picture returns everything on the sheet; what belongs to a record lies in
// groups that bear its id. The picture must not be drawn on.
func (s *Scene) Picture() *draw.Picture { return s.picture() }

// Bounds returns the rectangle that holds all that Picture draws, empty for
// an empty sheet.
func (s *Scene) Bounds() geom.Rect { return s.Picture().Bounds() }
