package details

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2/test"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit"
)

// onePixel is an image of one grey pixel, as a sheet has it.
const onePixel = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg=="

// A logo is chosen from a file, shown by its size, and taken out again; where nobody
// can be asked for a file, none is offered. One that is refused changes nothing.
func TestLogoIsChosen(t *testing.T) {
	test.NewTempApp(t)
	e := edit.New(put(t, diagram.Info{}), edit.Options{})
	target := infoTarget(e, conventions[0])
	field := diagram.FieldOf(diagram.InfoFields(), "issue.logo")
	if c := imageRow(field, "logo").build(target, func(string) {}); len(c.object.(*look.Select).Options) != 1 {
		t.Errorf("offered without anybody to ask: %q", c.object.(*look.Select).Options)
	}
	image, told := onePixel, ""
	target.choose = func(use func(string)) { use(image) }
	list := imageRow(field, "logo").build(target, func(message string) { told = message }).object.(*look.Select)
	logo := func() string { return e.Document().Info().Issue.Logo }
	list.SetSelected(chooseImage)
	if want := "a PNG of 1 by 1 pixels, 67 bytes"; logo() != onePixel || list.Selected != want || !slices.Contains(list.Options, noImage) || told != "" {
		t.Errorf("got %q, shown as %q of %q, want %q; told %q", logo(), list.Selected, list.Options, want, told)
	}
	image = "no image"
	list.SetSelected(chooseImage)
	if logo() != onePixel || told == "" {
		t.Errorf("what is no image is taken: %q, told %q", logo(), told)
	}
	list.SetSelected(noImage)
	if logo() != "" || list.Selected != noImage {
		t.Errorf("taken out: got %q, shown as %q", logo(), list.Selected)
	}
}
