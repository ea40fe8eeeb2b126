package sheet

import (
	"image"

	"clampline/diagram/draw/raster"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

const (
	gridPitchMM  = 5
	legendMargin = 10   // px from the corner of the sheet
	legendShare  = 0.72 // of full scale
	legendLeast  = 3    // times its own height that a sheet is high at least to show it
)

// paint makes the picture of the sheet in device pixels. The drawing is kept
// while only what lies over it changes.
func (s *Sheet) paint(width, height int) image.Image {
	s.reserve(width, height)
	view := s.editor.View()
	ratio := 1.0
	if view.Width > 0 {
		ratio = float64(width) / view.Width
	}
	now := drawn{s.editor.SceneVersion(), s.editor.ViewVersion(), width, height, s.editor, s.palette}
	if now != s.drawn {
		shown := raster.View{Scale: view.Scale * ratio, Origin: view.Origin, GridPitch: gridPitchMM}
		s.painter.Paint(s.base, s.editor.Scene().Picture(), shown, s.palette)
		s.drawn = now
	}
	copy(s.frame.Pix, s.base.Pix)
	s.painter.PaintOver(s.frame, s.editor.Overlay(), raster.View{Scale: view.Scale * ratio, Origin: view.Origin}, s.palette)
	s.paintLegend(height, ratio)
	return s.frame
}

func (s *Sheet) reserve(width, height int) {
	size := image.Rect(0, 0, width, height)
	if s.base == nil || s.base.Rect != size {
		s.base, s.frame = image.NewRGBA(size), image.NewRGBA(size)
		s.drawn = drawn{}
	}
}

// legendFoot returns the height of the strip that the legend takes of a sheet of
// a height, in px; nothing where it is not shown, as where the sheet is so low
// that little would be left of it.
func (s *Sheet) legendFoot(height float64) float64 {
	bounds := s.legend.Bounds()
	foot := bounds.Height()*legendShare*edit.FullScale + legendMargin
	if bounds.IsEmpty() || height < legendLeast*foot {
		return 0
	}
	return foot
}

// paintLegend puts the legend into the left foot of the sheet, always at the
// same size.
func (s *Sheet) paintLegend(height int, ratio float64) {
	if s.legendFoot(float64(height)/ratio) == 0 {
		return
	}
	bounds := s.legend.Bounds()
	scale := legendShare * edit.FullScale * ratio
	margin := legendMargin * ratio / scale
	origin := geom.Pt(bounds.Min.X-margin, bounds.Max.Y+margin-float64(height)/scale)
	s.painter.PaintOver(s.frame, s.legend, raster.View{Scale: scale, Origin: origin}, s.palette)
}
