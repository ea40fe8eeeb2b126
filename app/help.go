package app

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/mark"
	"clampline/app/look"
	"clampline/diagram/edit"
)

// showKeys lists every command with its keys, then what the pointer does.
func (a *App) showKeys() {
	rows := container.New(layoutPairs{})
	for _, command := range a.commands {
		rows.Add(widget.NewLabel(strings.TrimSuffix(command.Label, " …")))
		rows.Add(look.NewFaint(keysText(command.Keys)))
	}
	for _, row := range slices.Concat(menuBarHelp(), pointerHelp[:]) {
		rows.Add(widget.NewLabel(row[0]))
		rows.Add(look.NewFaint(row[1]))
	}
	q := &question{app: a}
	q.show("Commands and keys", container.NewVScroll(rows), fyne.NewSize(620, 560), closing())
}

func keysText(keys []edit.Key) string {
	var words []string
	for _, key := range keys {
		words = append(words, key.String())
	}
	return strings.Join(words, ", ")
}

// menuBarHelp is how keys reach the menu bar, where the window draws it.
func menuBarHelp() [][2]string {
	if nativeMenu {
		return nil
	}
	return [][2]string{{"Menu bar", keyMenuBar.String() + ", or Alt alone"}}
}

// pointerHelp is what the pointer does on the sheet.
var pointerHelp = [...][2]string{
	{"Select; add to or take from the selection", "click; Shift+click"},
	{"Select by box", "drag from an empty place"},
	{"Move; without snapping", "drag; Alt+drag"},
	{"Draw a feeder", "drag from a terminal, or Feeder in the strip"},
	{"Lengthen a bus bar", "drag its end"},
	{"Pan", "scroll; middle drag; Space+drag"},
	{"Zoom at the pointer", "Ctrl+scroll"},
	{"Edit the details", "double click"},
}

// layoutPairs lays labels out in two columns, the first as wide as it needs.
type layoutPairs struct{}

func (layoutPairs) sizes(objects []fyne.CanvasObject) (first, second, height float32) {
	for i, o := range objects {
		least := o.MinSize()
		height = max(height, least.Height)
		if i%2 == 0 {
			first = max(first, least.Width)
		} else {
			second = max(second, least.Width)
		}
	}
	return first, second, height
}

// MinSize returns the room for all rows.
func (l layoutPairs) MinSize(objects []fyne.CanvasObject) fyne.Size {
	first, second, height := l.sizes(objects)
	return fyne.NewSize(first+second, height*float32((len(objects)+1)/2))
}

// Layout places the rows one below the other.
func (l layoutPairs) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	first, _, height := l.sizes(objects)
	for i, o := range objects {
		x, width := float32(0), first
		if i%2 == 1 {
			x, width = first, size.Width-first
		}
		o.Move(fyne.NewPos(x, float32(i/2)*height))
		o.Resize(fyne.NewSize(width, height))
	}
}

func (a *App) showCautions() {
	a.tell("Cautions", mark.Caution)
}

func (a *App) showAbout() {
	version := a.app.Metadata().Version
	text := fmt.Sprintf("Clampline %s\n\nPlans the surge protection of a building on its one-line diagram.\n\n%s", version, mark.Caution)
	a.tell("About Clampline", text)
}
