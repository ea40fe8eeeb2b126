package app

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// held keeps background work until it is told to run it, and what is put off
// until it is due.
type held struct {
	jobs []func()
	late *putOff   // that was put off last; nil where there is none or it was halted
	long []*putOff // that was put off for longer than a cut is
}

// putOff is work that was put off.
type putOff struct {
	pause time.Duration
	run   func()
}

func (h *held) put(pause time.Duration, f func()) (halt func()) {
	own := &putOff{pause, f}
	if pause > patience {
		h.long = append(h.long, own)
		return func() { h.long = slices.DeleteFunc(h.long, func(p *putOff) bool { return p == own }) }
	}
	h.late = own
	return func() {
		if h.late == own {
			h.late = nil
		}
	}
}

func (h *held) executor() executor {
	return executor{
		background: func(f func()) { h.jobs = append(h.jobs, f) },
		window:     func(f func()) { f() },
		every:      func(time.Duration, func()) func() { return func() {} },
		after:      func(pause time.Duration, f func()) func() { return h.put(pause, f) },
	}
}

func building(b *testing.B, n int) *App {
	b.Helper()
	a := New(test.NewTempApp(b), Options{Inline: true})
	a.window.Resize(fyne.NewSize(1500, 900))
	a.workOn(diagramtest.Building(n), "")
	a.judge.run = (&held{}).executor()
	return a
}

func on(e *edit.Editor, p geom.Point) fyne.Position {
	at := e.View().ToScreen(p)
	return fyne.NewPos(float32(at.X), float32(at.Y))
}

func mouse(at fyne.Position, button desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at, AbsolutePosition: at}, Button: button}
}

func sizes(b *testing.B, f func(b *testing.B, n int)) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) { f(b, n) })
	}
}

func BenchmarkRefreshWhileDragging(b *testing.B) {
	sizes(b, func(b *testing.B, n int) {
		a := building(b, n)
		part, _ := a.editor.Document().Part("part-3")
		hold := part.At.Add(geom.Pt(-12, 0))
		a.editor.Zoom100()
		a.editor.Reveal(part.ID)
		a.refresh()
		a.sheet.MouseDown(mouse(on(a.editor, hold), desktop.MouseButtonPrimary))
		at := on(a.editor, hold)
		step := func(i int) {
			p := at.AddXY(float32(10+20*(i%20)), float32(20*(i%7)))
			a.sheet.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p}})
		}
		step(1)
		if moved, _ := a.editor.Document().Part(part.ID); moved.At == part.At || len(a.editor.Selection()) != 1 {
			b.Fatal("the gesture does not move the part")
		}
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			step(i)
		}
	})
}

func BenchmarkRefreshWhileHovering(b *testing.B) {
	sizes(b, func(b *testing.B, n int) {
		a := building(b, n)
		a.editor.Zoom100()
		a.editor.Reveal("part-3")
		a.refresh()
		part, _ := a.editor.Document().Part("part-3")
		over, away := on(a.editor, part.At.Add(geom.Pt(-12, 0))), on(a.editor, part.At.Add(geom.Pt(-12, -14)))
		before := a.editor.OverlayVersion()
		for i := 0; b.Loop(); i++ {
			at := over
			if i%2 == 1 {
				at = away
			}
			a.sheet.MouseMoved(mouse(at, 0))
		}
		if a.editor.OverlayVersion() < before+2 {
			b.Fatal("the hover changes nothing")
		}
	})
}

func BenchmarkResultArrives(b *testing.B) {
	sizes(b, func(b *testing.B, n int) {
		a := building(b, n)
		a.editor.Select("part-3")
		a.refresh()
		outcome := a.judgement
		for b.Loop() {
			another := *outcome.result
			outcome.result = &another
			a.judged(outcome)
		}
	})
}

// BenchmarkMenu measures what greying the menus costs with one part selected
// and with all.
func BenchmarkMenu(b *testing.B) {
	sizes(b, func(b *testing.B, n int) {
		a := building(b, n)
		for name, pick := range map[string]func(){"one": func() { a.editor.Select("part-3") }, "all": a.editor.SelectAll} {
			b.Run(name, func(b *testing.B) {
				pick()
				for b.Loop() {
					a.menu.show(a.editor)
				}
			})
		}
	})
}

// BenchmarkLeadIsDragged measures the whole of a step while a lead length is
// dragged on the transient basis: change, solving, colours and working.
func BenchmarkLeadIsDragged(b *testing.B) {
	for i, name := range []string{"demo", "farm", "clinic"} {
		b.Run(name, func(b *testing.B) {
			a := New(test.NewTempApp(b), Options{Inline: true})
			a.window.Resize(fyne.NewSize(1500, 900))
			a.setBasis(analysis.Transient)
			a.workOn(demo(b, i), "")
			a.editor.Select("protector-1")
			a.refresh()
			before := a.judgement.result
			for n := 0; b.Loop(); n++ {
				err := (forward{a}).ChangeKeyed("drag", "drag", func(tx *diagram.Tx) error {
					p, _ := tx.Protector("protector-1")
					p.Leads.Phase.Length = 0.1 + 0.01*float64(n%100)
					tx.SetProtector(p)
					return nil
				})
				if err != nil {
					b.Fatal(err)
				}
			}
			if a.judgement.result == before || a.judgement.result.Basis != analysis.Transient {
				b.Fatal("nothing was solved")
			}
		})
	}
}
