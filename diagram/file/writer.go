package file

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-json"

	"clampline/diagram"
)

// object is a JSON object whose members have an order.
type object []member

type member struct {
	name  string
	value any // object, []any, string, json.Number, bool or nil
}

// writer collects the members that it is told of, apart from those that are
// zero, and then those of extra that it was not told of.
type writer struct {
	out   object
	extra map[string]any // what the file had besides, at this level
	known []string       // names it was told of, at this level
	err   error
}

var _ fields = (*writer)(nil)

func (w *writer) put(name string, value any) {
	w.known = append(w.known, name)
	w.out = append(w.out, member{name, value})
}

// skip notes that the name is known, so that extra cannot bring it back.
func (w *writer) skip(name string) { w.known = append(w.known, name) }

// putExtra adds what is not known, in the order of the names.
func (w *writer) putExtra() {
	for _, name := range slices.Sorted(maps.Keys(w.extra)) {
		if !slices.Contains(w.known, name) {
			w.out = append(w.out, member{name, sorted(w.extra[name])})
		}
	}
}

func (w *writer) record(id *diagram.ID, extra *string, visit func()) {
	w.extra, w.err = extraOf(*extra, recordDepth-1)
	if w.err != nil {
		w.err = fmt.Errorf("%s: %w", *id, w.err)
		return
	}
	w.text("id", string(*id), nil)
	visit()
	w.putExtra()
}

// inner returns the members that visit names.
func (w *writer) inner(name string, visit func()) object {
	outside := *w
	extra, _ := w.extra[name].(map[string]any)
	*w = writer{extra: extra}
	visit()
	w.putExtra()
	members := w.out
	*w = outside
	return members
}

func (w *writer) group(name string, visit func()) {
	if members := w.inner(name, visit); len(members) > 0 {
		w.put(name, members)
		return
	}
	w.skip(name)
}

func (w *writer) text(name, v string, _ func(string)) {
	if v == "" {
		w.skip(name)
		return
	}
	w.put(name, v)
}

func (w *writer) flag(name string, v *bool) {
	if !*v {
		w.skip(name)
		return
	}
	w.put(name, true)
}

func (w *writer) count(name string, v *int) {
	if *v == 0 {
		w.skip(name)
		return
	}
	w.put(name, json.Number(strconv.Itoa(*v)))
}

func (w *writer) number(name, _ string, always bool, v *float64) {
	if *v == 0 && !always {
		w.skip(name)
		return
	}
	w.put(name, shortest(*v))
}

// optional writes nothing for a group that is not there, unless something is known
// of it all the same.
func (w *writer) optional(name string, there *bool, visit func()) {
	members := w.inner(name, func() {
		w.skip("connected")
		visit()
	})
	switch {
	case *there:
		w.put(name, members)
	case len(members) > 0:
		w.put(name, append(object{{"connected", false}}, members...))
	default:
		w.skip(name)
	}
}

// shortest returns the shortest decimal number that reads back exactly, with
// an exponent where it is so small that people would count noughts.
func shortest(v float64) json.Number {
	if v == 0 {
		return "0" // and not "-0"
	}
	if math.Abs(v) >= 1e-3 {
		return json.Number(strconv.FormatFloat(v, 'f', -1, 64))
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
	return json.Number(mantissa + "e-" + strings.TrimLeft(exponent, "-0"))
}
