package scene

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Scene is a document placed on the sheet, with the protectors of one plan.
// Use New.
type Scene struct{}

// New places the document with the protectors of the plan. It keeps nothing of
// the document or of the maps in marks.
func New(doc *diagram.Document, plan diagram.ID, marks Marks, options Options) *Scene {
	return &Scene{}
}

// Picture returns everything on the sheet; what belongs to a record lies in
// groups that bear its id. The picture must not be drawn on.
func (s *Scene) Picture() *draw.Picture { return draw.NewPicture() }

// Bounds returns the rectangle that holds all that Picture draws, empty for
// an empty sheet.
func (s *Scene) Bounds() geom.Rect { return geom.Empty() }

// Export returns the drawing as it leaves the program: the sheet, below it the
// title, the legend and the caution, wrapped to the width of the drawing.
// An empty caution takes that of the marks.
func (s *Scene) Export(title, caution string) *draw.Picture { return draw.NewPicture() }
