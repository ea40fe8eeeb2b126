package app

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/app/details"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/library"
)

// viewProtectors is the name of the view of the library in the drawer.
const viewProtectors = "Protectors"

// protectors is the library in the window: its view in the drawer, the entry
// that is edited, and what is done with them.
type protectors struct {
	app     *App
	builtIn []library.Entry
	own     ownLibrary
	view    *drawer.Library
	editing diagram.ID          // entry that is edited in the details, or nothing
	past    []diagram.Protector // what that was before each of its changes
	future  []diagram.Protector // what it was before each that was taken back, the next one last
	dragged *diagram.Protector  // what that was before the drag that is under way, or nil
}

func newProtectors(a *App) *protectors {
	p := &protectors{app: a, builtIn: library.BuiltIn(), own: ownLibrary{path: a.options.Library}}
	p.own.load()
	p.view = drawer.NewLibrary(drawer.LibraryHands{
		Put: p.put, Replace: p.replace, Add: p.add, Edit: func(e library.Entry) { p.edit(e.Protector.ID) },
		Duplicate: p.duplicate, Remove: p.remove, Import: p.importFile, Export: p.exportFile, Reload: p.reload, Seen: p.show,
	})
	return p
}

// show brings the view up to date.
func (p *protectors) show() {
	a := p.app
	hosts, why := p.hosts()
	state := drawer.LibraryState{
		Entries:    slices.Concat(p.own.entries(), p.builtInFor(a.editor.Document().FollowsIEC())),
		Convention: a.convention(), Hidden: !p.isSeen(), Due: a.judge.isWorking(),
		Why: why, Result: a.judgement.result,
	}
	for _, host := range hosts {
		state.Buses = append(state.Buses, host.ID)
	}
	switch len(hosts) {
	case 0:
	case 1:
		state.BusName, state.Kind = a.editor.Document().NameOf(hosts[0].ID), hosts[0].Kind
	default:
		state.BusName = fmt.Sprintf("all %d selected", len(hosts))
	}
	if p.own.broken != nil {
		state.Broken = "Your own protectors cannot be read. " + p.brokenText()
	}
	if selected, ok := p.selected(); ok {
		state.Protector, state.ProtectorName = selected.ID, a.editor.Document().NameOf(selected.ID)
	}
	if result := a.judgement.result; result != nil && len(hosts) > 0 {
		state.Check = p.checker(state.Buses)
	}
	p.view.Show(state)
}

// builtInFor returns the built-in kinds, those that state what the practice of the
// sheet does first.
func (p *protectors) builtInFor(iec bool) []library.Entry {
	of := func(e library.Entry) int {
		if (e.Protector.Rating == diagram.Up) == iec {
			return 0
		}
		return 1
	}
	return slices.SortedStableFunc(slices.Values(p.builtIn), func(a, b library.Entry) int { return of(a) - of(b) })
}

// isSeen reports whether the view is what the drawer shows.
func (p *protectors) isSeen() bool {
	r := p.app.regions
	return r != nil && r.open && r.drawer.Shown() == viewProtectors
}

// brokenText says what is wrong with the user's file, and what to do.
func (p *protectors) brokenText() string {
	first, _, _ := strings.Cut(reason(p.own.broken, "open "+p.own.path+": "), "\n")
	return fmt.Sprintf("%s: %s. Mend the file, or move it away to begin anew; until then nothing is written to it.", p.own.path, first)
}

// checker returns what is found about an entry if it stood on each of the buses, by
// the newest result. Nothing is prepared until the first entry is asked for.
func (p *protectors) checker(buses []diagram.ID) func(library.Entry) []analysis.Finding {
	j := p.app.judgement
	checks := sync.OnceValue(func() (out []func(diagram.Protector) []analysis.Finding) {
		for _, bus := range buses {
			out = append(out, rule.CheckAt(rule.Input{Document: j.snapshot, Plan: j.plan, Topology: j.result.Topology, Faults: j.result.Faults}, bus))
		}
		return out
	})
	return func(e library.Entry) (out []analysis.Finding) {
		for i, check := range checks() {
			out = append(out, check(library.Place(e, j.plan, buses[i], e.Protector.ID))...)
		}
		return out
	}
}

// hosts returns the selected parts, all of which take a protector, or the one that the
// selected protector is on; else it says what to select.
func (p *protectors) hosts() ([]diagram.Part, string) {
	const wanted = "Select a board, load or junction"
	doc, selected := p.app.editor.Document(), p.app.editor.Selection()
	if len(selected) == 1 {
		selected = []diagram.ID{cmp.Or(details.BusOf(doc, selected), selected[0])}
	}
	var out []diagram.Part
	for _, id := range selected {
		part, ok := doc.Part(id)
		if !ok || !part.Kind.TakesProtector() {
			return nil, wanted + ": " + doc.NameOf(id) + " is none"
		}
		out = append(out, part)
	}
	if len(out) == 0 {
		return nil, wanted
	}
	return out, ""
}

// selected returns the protector that is selected alone.
func (p *protectors) selected() (diagram.Protector, bool) {
	if selected := p.app.editor.Selection(); len(selected) == 1 {
		return p.app.editor.Document().Protector(selected[0])
	}
	return diagram.Protector{}, false
}

// showFitting shows the protectors that fit an opening, with what is there
// selected.
func (a *App) showFitting(o analysis.Opening) {
	a.goTo([]diagram.ID{cmp.Or(o.Protector, o.Bus)})
	a.showView(viewProtectors)
	a.library.show()
	a.library.view.ShowFitting()
}

// put places the entry on each of the buses, in one step.
func (p *protectors) put(e library.Entry) {
	p.app.details.Commit()
	hosts, _ := p.hosts()
	if len(hosts) == 0 {
		return
	}
	a, plan := p.app, p.app.editor.Plan()
	on := a.editor.Document().NameOf(hosts[0].ID)
	if len(hosts) > 1 {
		on = fmt.Sprintf("%d places", len(hosts))
	}
	p.did("put "+library.Place(e, plan, "", "").Name+" on "+on, func(tx *diagram.Tx) error {
		for _, host := range hosts {
			placed := library.Place(e, plan, host.ID, tx.NewProtectorID())
			placed.Name = tx.Document().NewProtectorName(plan)
			tx.SetProtector(placed)
		}
		return nil
	})
}

// replace makes of the selected protector one of the kind of the entry.
func (p *protectors) replace(e library.Entry) {
	p.app.details.Commit()
	old, ok := p.selected()
	if !ok {
		return
	}
	next := library.InPlaceOf(old, e, p.isNote)
	label := fmt.Sprintf("replace %s by %s", p.app.editor.Document().NameOf(old.ID), library.Place(e, "", "", "").Name)
	p.did(label, func(tx *diagram.Tx) error {
		tx.SetProtector(next)
		return nil
	})
}

// isNote reports whether a note is that of a kind of the library.
func (p *protectors) isNote(note string) bool {
	return library.IsNote(slices.Concat(p.own.entries(), p.builtIn), note)
}

// did makes a change of the sheet and says so.
func (p *protectors) did(label string, change func(*diagram.Tx) error) {
	if err := (forward{p.app}).Change(label, change); err != nil {
		p.app.showError("Not done", err)
		return
	}
	p.app.note("Done: " + label + ". " + takesBack)
}

// add keeps the selected protector in the user's library.
func (p *protectors) add() {
	p.app.details.Commit()
	selected, ok := p.selected()
	if !ok {
		p.app.note("Select a protector on the sheet to add it to your library.")
		return
	}
	p.keep(selected, false)
}

// duplicate keeps a copy of the entry and opens it to be edited.
func (p *protectors) duplicate(e library.Entry) {
	copied := e.Protector
	copied.Name = strings.TrimSpace(copied.Name + " (copy)")
	p.keep(copied, true)
}

// keep adds a protector to the user's library and puts the cursor on it.
func (p *protectors) keep(protector diagram.Protector, edit bool) {
	e, err := p.own.add(protector)
	if err != nil {
		p.notKept(err)
		return
	}
	p.show()
	p.view.Pick(e.Protector.ID)
	p.app.note(drawer.NameOf(e) + " is in your library.")
	if edit {
		p.edit(e.Protector.ID)
	}
}

// notKept says why the user's library is as it was, and shows it so.
func (p *protectors) notKept(err error) {
	p.own.load()
	p.show()
	p.app.showError("Your library is as it was", err)
}

// remove asks, and takes the entry away.
func (p *protectors) remove(e library.Entry) {
	name := drawer.NameOf(e)
	q := &question{app: p.app}
	q.show("Remove it?", paragraph("Remove "+name+" from your library? Protectors of this kind that stand on sheets stay there."), fyne.Size{},
		reply{"Keep it", stayReply, nil},
		reply{"Remove it", dangerReply, func() {
			if p.editing == e.Protector.ID {
				p.endEditing()
			}
			if err := p.own.remove(e.Protector.ID); err != nil {
				p.notKept(err)
				return
			}
			p.show()
		}})
}

// reload reads the user's file again.
func (p *protectors) reload() {
	p.own.load()
	p.show()
}
