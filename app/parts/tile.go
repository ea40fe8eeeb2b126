package parts

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram/draw"
	"clampline/diagram/draw/raster"
	"clampline/diagram/geom"
)

const (
	tileWidth  = 90
	tileHeight = 50
	iconHeight = 30
	iconScale  = 2.3 // px to the mm of a symbol, less where it would not fit
)

// tile is one item of the strip.
type tile struct {
	widget.BaseWidget
	item    Item
	hands   Hands
	palette draw.Palette
	painter *raster.Painter
	armed   bool
	hovered bool
	carried bool
	at      fyne.Position
}

var (
	_ fyne.Tappable     = (*tile)(nil)
	_ fyne.Draggable    = (*tile)(nil)
	_ desktop.Hoverable = (*tile)(nil)
)

func newTile(item Item, palette draw.Palette, hands Hands) *tile {
	t := &tile{item: item, hands: hands, palette: palette, painter: raster.New()}
	t.ExtendBaseWidget(t)
	return t
}

func (t *tile) setArmed(armed bool) {
	if t.armed != armed {
		t.armed = armed
		t.Refresh()
	}
}

// Tapped takes the item up.
func (t *tile) Tapped(*fyne.PointEvent) { t.hands.Take(t.item.Name) }

// Dragged carries the item over the window.
func (t *tile) Dragged(ev *fyne.DragEvent) {
	if !t.carried {
		t.carried = true
		t.hands.Lift(t.item.Name)
	}
	t.at = ev.AbsolutePosition
	t.hands.Carry(t.at)
}

// DragEnd drops the item.
func (t *tile) DragEnd() {
	if t.carried {
		t.carried = false
		t.hands.Drop(t.at)
	}
}

// MouseIn lights the tile up.
func (t *tile) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.Refresh() }

// MouseMoved does nothing.
func (t *tile) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends the light.
func (t *tile) MouseOut() { t.hovered = false; t.Refresh() }

func (t *tile) MinSize() fyne.Size { return fyne.NewSize(tileWidth, tileHeight) }

func (t *tile) CreateRenderer() fyne.WidgetRenderer {
	r := &tileRenderer{
		tile:    t,
		ground:  canvas.NewRectangle(color.Transparent),
		caption: canvas.NewText(t.item.Caption, color.Transparent),
	}
	r.icon = canvas.NewRaster(t.paint)
	r.ground.CornerRadius = 5
	r.ground.StrokeWidth = 1
	r.caption.Alignment = fyne.TextAlignCenter
	r.Refresh()
	return r
}

// paint draws the symbol in the middle of the picture.
func (t *tile) paint(width, height int) image.Image {
	out := image.NewRGBA(image.Rect(0, 0, width, height))
	bounds := t.item.Picture.Bounds()
	if width == 0 || height == 0 || bounds.IsEmpty() {
		return out
	}
	ratio := float64(height) / iconHeight
	scale := min(iconScale*ratio, 0.9*float64(height)/max(bounds.Height(), 1), 0.9*float64(width)/max(bounds.Width(), 1))
	corner := bounds.Center().Sub(geom.Pt(float64(width)/2/scale, float64(height)/2/scale))
	t.painter.PaintOver(out, t.item.Picture, raster.View{Scale: scale, Origin: corner}, t.palette)
	return out
}

type tileRenderer struct {
	tile    *tile
	ground  *canvas.Rectangle
	icon    *canvas.Raster
	caption *canvas.Text
}

func (r *tileRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.icon.Move(fyne.NewPos(4, 3))
	r.icon.Resize(fyne.NewSize(size.Width-8, iconHeight))
	r.caption.Move(fyne.NewPos(0, size.Height-r.caption.MinSize().Height-2))
	r.caption.Resize(fyne.NewSize(size.Width, r.caption.MinSize().Height))
}

func (r *tileRenderer) MinSize() fyne.Size { return fyne.NewSize(tileWidth, tileHeight) }

func (r *tileRenderer) Refresh() {
	r.ground.FillColor = theme.Color(look.ColorCard)
	r.ground.StrokeColor = theme.Color(look.ColorHair)
	switch {
	case r.tile.armed:
		r.ground.StrokeColor = theme.Color(theme.ColorNamePrimary)
		r.ground.FillColor = theme.Color(theme.ColorNameSelection)
	case r.tile.hovered:
		r.ground.StrokeColor = theme.Color(theme.ColorNamePrimary)
	}
	r.caption.Color = theme.Color(theme.ColorNameForeground)
	r.caption.TextSize = theme.Size(look.SizeSmall)
	r.ground.Refresh()
	r.icon.Refresh()
	r.caption.Refresh()
}

func (r *tileRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.icon, r.caption}
}

func (r *tileRenderer) Destroy() {}
