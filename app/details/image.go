package details

import (
	"fyne.io/fyne/v2"

	"clampline/app/look"
	"clampline/diagram"
)

// What the list of an image offers besides the one that is there.
const (
	noImage     = "none"
	chooseImage = "choose a file …"
)

// imageRow takes an image from a file, or takes it out.
func imageRow[R any](f *diagram.Field[R], label string) row[R] {
	return row[R]{label: label, build: func(t target[R], tell func(string)) control {
		list := look.NewSelect(nil, nil)
		said := func() string { record, _ := t.get(); return f.Said(&record, t.convention) }
		refresh := func() {
			options := []string{noImage}
			if there := said(); there != "" {
				options = append(options, there)
			}
			if t.choose != nil {
				options = append(options, chooseImage)
			}
			list.Options, list.Selected = options, options[min(1, len(said()))]
			list.Refresh()
		}
		put := func(image string) {
			report(tell, t.set("change "+label, func(r *R) { f.SetText(r, image) }))
			refresh()
		}
		refresh()
		list.OnChanged = func(picked string) {
			switch picked {
			case said():
			case noImage:
				if said() != "" {
					put("")
				}
			case chooseImage:
				refresh() // the list goes on showing what is there
				t.choose(put)
			}
		}
		return control{object: list, fields: []fyne.Focusable{list}, refresh: refresh}
	}}
}
