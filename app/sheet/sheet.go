package sheet

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram/draw"
	"clampline/diagram/draw/raster"
	"clampline/diagram/edit"
)

// Sheet is the widget. Use New.
type Sheet struct {
	widget.BaseWidget
	editor  *edit.Editor
	palette draw.Palette
	legend  *draw.Picture
	image   *canvas.Raster
	painter *raster.Painter
	base    *image.RGBA // the drawing alone
	frame   *image.RGBA // the drawing with what lies over it
	drawn   drawn       // what base shows

	// Changed is called after each event that the editor took, and where a new
	// size changes the zoom. It may be nil.
	Changed func()
	// Focused is called where the keys begin to go to the sheet. It may be nil.
	Focused func()
	// Key is offered every key first, and reports whether it took it. It may be
	// nil.
	Key func(edit.Key) bool
	// Shortcut is offered every shortcut while the sheet has the focus. It may
	// be nil.
	Shortcut func(fyne.Shortcut)
	// Modifiers returns the keys that are held; nil stands for none.
	Modifiers func() fyne.KeyModifier

	gesture gesture
	space   bool
	// Now is the clock that tells a double click; tests set another.
	Now func() time.Time
}

// drawn tells whether a picture on the screen is still the right one.
type drawn struct {
	scene, view   uint64
	width, height int
	editor        *edit.Editor
	palette       draw.Palette
}

var _ fyne.Widget = (*Sheet)(nil)

// New returns a widget that shows the editor's sheet in the colours.
func New(editor *edit.Editor, palette draw.Palette) *Sheet {
	s := &Sheet{editor: editor, palette: palette, painter: raster.New(), legend: draw.NewPicture(), Now: time.Now}
	s.image = canvas.NewRaster(s.paint)
	s.image.ScaleMode = canvas.ImageScalePixels
	s.ExtendBaseWidget(s)
	return s
}

// SetEditor shows another sheet.
func (s *Sheet) SetEditor(editor *edit.Editor) {
	s.editor = editor
	s.gesture = gesture{}
	s.resizeView(s.Size())
	s.Update()
}

// SetPalette changes the colours.
func (s *Sheet) SetPalette(palette draw.Palette) {
	s.palette = palette
	s.Update()
}

// SetLegend changes the card at the left foot of the sheet.
func (s *Sheet) SetLegend(legend *draw.Picture) {
	s.legend = legend
	s.resizeView(s.Size())
	s.Update()
}

// Update paints the sheet anew.
func (s *Sheet) Update() { s.image.Refresh() }

// Resize tells the editor how much of the sheet is seen.
func (s *Sheet) Resize(size fyne.Size) {
	s.BaseWidget.Resize(size)
	s.resizeView(size)
}

// resizeView leaves the foot of the sheet to the legend, so that what is fitted
// or brought into view stands clear of it.
func (s *Sheet) resizeView(size fyne.Size) {
	height, scale := float64(size.Height), s.editor.View().Scale
	s.editor.Resize(float64(size.Width), height-s.legendFoot(height))
	if s.editor.View().Scale != scale && s.Changed != nil {
		s.Changed() // the whole sheet was fitted anew
	}
}

// CreateRenderer returns the renderer: one picture.
func (s *Sheet) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(s.image)
}

// MinSize returns the least size at which a sheet is of use.
func (s *Sheet) MinSize() fyne.Size { return fyne.NewSize(240, 160) }
