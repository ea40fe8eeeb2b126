package scene

import (
	"maps"
	"slices"
	"strconv"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Badge counts what was found at a record. It is drawn as a disc where some of
// it is wrong, and as a triangle where all of it is only doubtful.
type Badge struct {
	Count int // zero or less shows nothing
	Wrong bool
}

// Sizes of badges, in mm.
const (
	badgeRadius = 1.9 // of the disc; the triangle is about as large
	badgeRim    = 0.4 // in the colour of the sheet about it
)

// paintBadges draws the badges over all else, in the order of the ids.
func (s *Scene) paintBadges(p *draw.Picture) {
	if len(s.badges) == 0 {
		return
	}
	drawn := map[Badge]stamped{}
	for _, id := range slices.SortedFunc(maps.Keys(s.badges), diagram.CompareID) {
		at, ok := s.badgeAt(id)
		badge := s.badges[id]
		if !ok || badge.Count <= 0 {
			continue
		}
		stamp, ok := drawn[badge]
		if !ok {
			stamp = stamped{badge.key(), badge.picture()}
			drawn[badge] = stamp
		}
		p.Begin(string(id))
		p.Place(stamp.key, stamp.picture, at, 0, draw.RoleInk)
		p.End()
	}
}

// badgeAt returns where the badge of a record is drawn: at a part's tag, beside
// the symbol of a protector, on the line of a feeder. Seen
// from afar labels are left out, so it does not stand at one.
func (s *Scene) badgeAt(id diagram.ID) (geom.Point, bool) {
	if i, ok := s.partAt[id]; ok {
		return s.parts[i].badgeAt(), true
	}
	if i, ok := s.feederAt(id); ok {
		return s.feeders[i].badgeAt(), len(s.feeders[i].line) > 1
	}
	if i, ok := s.protectorAt(id); ok {
		return s.protectors[i].badgeAt(), true
	}
	return geom.Point{}, false
}

// badgeAt returns the corner of the card, the place behind the name where there
// is none, or the corner of the symbol where there is neither.
func (q *part) badgeAt() geom.Point {
	switch {
	case !q.tag.placed():
		return geom.Pt(q.box.Max.X, q.box.Min.Y)
	case q.tag.card:
		return geom.Pt(q.tag.box.Max.X, q.tag.box.Min.Y)
	}
	return geom.Pt(q.tag.box.Max.X+badgeRadius+badgeRim, q.tag.box.Min.Y+plainFirst-draw.CapHeight(nameSize)/2)
}

// badgeAt returns the place on the line nearest to its middle that is clear of
// the label, or the middle where none is.
func (f *feeder) badgeAt() geom.Point {
	piece := f.longest()
	reach := geom.Pt(badgeRadius, badgeRadius)
	for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		at := piece.At(share)
		if box := geom.RectOf(at.Sub(reach), at.Add(reach)); f.label.Width() == 0 || !box.Overlaps(f.label) {
			return at
		}
	}
	return piece.At(0.5)
}

// badgeAt returns the place beside the symbol across from the label, where the
// halo of a selection does not cover it.
func (q *protector) badgeAt() geom.Point {
	const off = haloApart + haloWidth/2 + badgeRadius
	at := q.box.Center()
	if q.tag.placed() && q.tag.box.Min.X < at.X {
		return geom.Pt(q.box.Max.X+off, at.Y)
	}
	return geom.Pt(q.box.Min.X-off, at.Y)
}

func (b Badge) text() string {
	if b.Count > 99 {
		return "99+"
	}
	return strconv.Itoa(b.Count)
}

func (b Badge) key() string {
	if b.Wrong {
		return "badge/wrong/" + b.text()
	}
	return "badge/doubtful/" + b.text()
}

// picture draws the badge with its middle at the origin.
func (b Badge) picture() *draw.Picture {
	p := draw.NewPicture()
	rim := draw.Pen{Role: draw.RolePaper, Width: badgeRim}
	text, size, low := b.text(), 0.0, 0.0
	if b.Wrong {
		p.FillStroke(draw.Circle(geom.Point{}, badgeRadius), draw.RoleExceeded, rim)
		size = [4]float64{0, 2.6, 2.2, 1.6}[len(text)]
	} else {
		p.FillStroke(badgeTriangle(), draw.RoleTight, rim)
		size, low = [4]float64{0, 2.3, 1.7, 1.2}[len(text)], 0.55 // where a triangle is wide
	}
	p.Text(draw.Text{
		At: geom.Pt(0, low+draw.CapHeight(size)/2), Size: size, Bold: true,
		Align: draw.Center, Role: draw.RoleOnVerdict, String: text,
	})
	return p
}

// badgeTriangle stands on its base, as wide as it needs to hold a number.
func badgeTriangle() draw.Path {
	const half, top, foot = 2.6, -2.5, 1.9
	var out draw.Path
	out.MoveTo(geom.Pt(0, top))
	out.LineTo(geom.Pt(half, foot))
	out.LineTo(geom.Pt(-half, foot))
	out.Close()
	return out
}
