package draw

import "clampline/diagram/geom"

// Shape is a path that is filled, stroked or both, the fill first.
type Shape struct {
	Path Path
	Fill Role // RoleNone: not filled
	Pen  Pen  // width zero: not stroked

	strands []Strand // of a double line in a picture: dear to find
}

// Strands returns the plain lines of the shape's stroke, in the order they are
// drawn.
func (s Shape) Strands() []Strand { return s.AppendStrands(nil) }

// AppendStrands appends what Strands returns.
func (s Shape) AppendStrands(to []Strand) []Strand {
	if s.strands != nil {
		return append(to, s.strands...)
	}
	return s.Pen.appendStrands(to, s.Path)
}

// Bounds returns the rectangle that holds the shape's ink.
func (s Shape) Bounds() geom.Rect { return s.Path.Bounds().Grow(s.Pen.Reach()) }

// Stamp is a shared picture placed on the sheet: turned about its origin, then
// moved to At, with what it draws in ink drawn in Role. A painter may keep what
// it made of a stamp by its key, so one key must always name the same picture,
// and the picture must not change once it is placed.
type Stamp struct {
	Key     string
	Picture *Picture
	At      geom.Point
	Turn    int // quarter turns clockwise, 0 to 3
	Role    Role
}

// Affine returns the map from the stamp's picture to the sheet.
func (s Stamp) Affine() geom.Affine { return geom.Turn(s.Turn).Then(geom.Translate(s.At)) }

// Expand returns a picture of its own that draws the same as the stamp.
func (s Stamp) Expand() *Picture {
	out := NewPicture()
	out.append(s.Picture, s.Affine(), s.Role)
	return out
}

// Bounds returns the rectangle that holds the stamp's ink.
func (s Stamp) Bounds() geom.Rect { return s.Picture.extent(s.Turn).Move(s.At) }

// moved returns the stamp as it lies in a picture that is mapped by a quarter
// turn and a step.
func (s Stamp) moved(by mapping, turn int) Stamp {
	s.At, s.Turn, s.Role = by.affine.Apply(s.At), (s.Turn+turn)&3, s.Role.tinted(by.tint)
	return s
}

// Image is a picture of pixels, such as a logo. It is always upright.
type Image struct {
	Data string    // a PNG or JPEG file
	Box  geom.Rect // that it fills, stretched where the shapes differ
}

// Item is one thing a picture draws: exactly one of Shape, Text, Stamp and
// Image is set. They belong to the picture and must not be changed.
type Item struct {
	Group  string    // id of the innermost group it is in, empty outside all
	Bounds geom.Rect // of its ink
	Shape  *Shape
	Text   *Text
	Stamp  *Stamp
	Image  *Image
}
