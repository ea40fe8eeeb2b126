package details

import (
	"slices"

	"fyne.io/fyne/v2"

	"clampline/app/look"
	"clampline/diagram/unit"
)

// option is one line of a list to pick from.
type option[T comparable] struct {
	value T
	label string
}

// choice picks one of a list.
func choice[R any, T comparable](label string, options []option[T], field func(*R) *T) row[R] {
	return choiceOf(label, options,
		func(r R) T { return *field(&r) },
		func(r *R, v T) { *field(r) = v })
}

func choiceOf[R any, T comparable](label string, options []option[T], get func(R) T, set func(*R, T)) row[R] {
	return choiceFrom(label, func(c unit.Convention) []option[T] { return inTerms(options, c) }, get, set)
}

// inTerms returns options in the words of the convention.
func inTerms[T comparable](options []option[T], c unit.Convention) []option[T] {
	out := slices.Clone(options)
	for i := range out {
		out[i].label = unit.Terms(out[i].label, c)
	}
	return out
}

// choiceFrom picks one of a list that may be another one at each refresh.
func choiceFrom[R any, T comparable](label string, options func(unit.Convention) []option[T], get func(R) T, set func(*R, T)) row[R] {
	return row[R]{label: label, build: func(t target[R], tell func(string)) control {
		list := look.NewSelect(nil, nil)
		var listed []option[T]
		value := func() string {
			if varies(t, get) {
				return ""
			}
			record, _ := t.get()
			return labelOf(listed, get(record))
		}
		if t.others != nil {
			list.PlaceHolder = theyVary
		}
		refresh := func() {
			if now := options(t.convention); !slices.Equal(now, listed) {
				listed = now
				list.SetOptions(labelsOf(listed))
			}
			if selected := value(); selected != list.Selected {
				list.Selected = selected
				list.Refresh()
			}
		}
		refresh()
		list.OnChanged = func(picked string) {
			at := slices.IndexFunc(listed, func(o option[T]) bool { return o.label == picked })
			if at >= 0 && picked != value() {
				to := listed[at].value
				report(tell, t.set("change "+label, func(r *R) { set(r, to) }))
				refresh() // back to what it was where the change was refused
			}
		}
		return control{object: list, fields: []fyne.Focusable{list}, refresh: refresh}
	}}
}

func labelsOf[T comparable](options []option[T]) []string {
	out := make([]string, len(options))
	for i, o := range options {
		out[i] = o.label
	}
	return out
}

func labelOf[T comparable](options []option[T], value T) string {
	for _, o := range options {
		if o.value == value {
			return o.label
		}
	}
	return ""
}
