package app

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/disk"
	"clampline/diagram/file"
)

// copies returns the names of the copies that are kept.
func copies(t *testing.T, folder string) []string {
	t.Helper()
	out, err := filepath.Glob(filepath.Join(folder, "*", "*"+file.Extension))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// keeping starts the program so that it keeps copies.
func keeping(t *testing.T) *App {
	t.Helper()
	a := start(t)
	a.KeepRecovery()
	quiet(t, a)
	return a
}

func TestCopyIsWrittenAfterAChange(t *testing.T) {
	a := keeping(t)
	a.keepCopy(nil)
	if got := copies(t, a.options.Recovery); len(got) > 0 {
		t.Fatalf("got %q before any change", got)
	}
	for _, name := range []string{"Grid", "Mains"} {
		change(t, a, name)
		a.keepCopy(nil)
		got := copies(t, a.options.Recovery)
		if len(got) != 1 {
			t.Fatalf("got %q, want one copy", got)
		}
		doc, err := file.Load(got[0])
		if err != nil {
			t.Fatal(err)
		}
		if part, _ := doc.Part("supply-1"); part.Name != name {
			t.Errorf("the copy holds %q, want %q", part.Name, name)
		}
	}
}

func TestCopyGoes(t *testing.T) {
	for name, act := range map[string]func(*testing.T, *App){
		"when it is saved": func(t *testing.T, a *App) {
			a.write(filepath.Join(t.TempDir(), "barn.clampline"), nil)
		},
		"when another sheet is opened": func(t *testing.T, a *App) {
			run(t, a, "new")
			answer(t, a, "Don't save")
		},
		"when the window is closed": func(t *testing.T, a *App) {
			a.close()
			answer(t, a, "Don't save")
		},
	} {
		t.Run(name, func(t *testing.T) {
			a := keeping(t)
			change(t, a, "Grid")
			a.keepCopy(nil)
			if got := copies(t, a.options.Recovery); len(got) != 1 {
				t.Fatalf("got %q, want one copy", got)
			}
			act(t, a)
			if entries, _ := os.ReadDir(a.options.Recovery); len(entries) > 0 {
				t.Errorf("got %v, want nothing left", entries)
			}
		})
	}
}

// A copy that was still being written when the sheet was saved goes too.
func TestCopyThatComesLateGoes(t *testing.T) {
	a := keeping(t)
	h := &held{}
	a.copy.keeper.run = h.executor()
	change(t, a, "Grid")
	a.keepCopy(nil)
	a.write(filepath.Join(t.TempDir(), "barn.clampline"), nil)
	h.next()
	if got := copies(t, a.options.Recovery); len(got) > 0 {
		t.Errorf("got %q, want none", got)
	}
}

// A copy of the sheet before must not pass for one of the sheet that is open.
func TestCopyOfAnotherSheetIsNoCopy(t *testing.T) {
	a := keeping(t)
	h := &held{}
	a.copy.keeper.run = h.executor()
	change(t, a, "Grid")
	a.keepCopy(nil)
	a.replace(diagram.New(), "")
	change(t, a, "Mains")
	h.next()
	a.keepCopy(nil)
	h.next()
	got := copies(t, a.options.Recovery)
	if len(got) != 1 {
		t.Fatalf("got %q, want one copy", got)
	}
	doc, err := file.Load(got[0])
	if err != nil {
		t.Fatal(err)
	}
	if part, _ := doc.Part("supply-1"); part.Name != "Mains" {
		t.Errorf("the copy holds %q, want %q", part.Name, "Mains")
	}
}

func TestCopyThatCannotBeWrittenIsTriedAgain(t *testing.T) {
	a := keeping(t)
	if err := os.WriteFile(a.options.Recovery, nil, 0o600); err != nil { // where the folder belongs
		t.Fatal(err)
	}
	change(t, a, "Grid")
	a.keepCopy(nil)
	if err := os.Remove(a.options.Recovery); err != nil {
		t.Fatal(err)
	}
	a.keepCopy(nil)
	if got := copies(t, a.options.Recovery); len(got) != 1 {
		t.Errorf("got %q, want one copy", got)
	}
}

// leave writes a copy as the process with the number would have left it.
func leave(t *testing.T, a *App, pid int, sheet, name string) {
	t.Helper()
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		part, _ := tx.Part("supply-1")
		part.Name = name
		tx.SetPart(part)
	})
	folder := filepath.Join(a.options.Recovery, fmt.Sprintf("%d-abc", pid))
	if err := (file.Keeping{Folder: folder, Sheet: sheet, Generations: file.UsualGenerations}).Save(doc); err != nil {
		t.Fatal(err)
	}
}

// deadProcess returns the number of a process that has ended.
func deadProcess(t *testing.T) int {
	t.Helper()
	c := exec.Command(os.Args[0], "-test.run=^$")
	if err := c.Run(); err != nil {
		t.Fatal(err)
	}
	return c.Process.Pid
}

func TestCopyIsOfferedAndRestored(t *testing.T) {
	for name, pid := range map[string]int{
		"of a process that ended":                    deadProcess(t),
		"of one that had the number of this process": os.Getpid(),
		"of one whose number another has by now":     os.Getppid(),
	} {
		t.Run(name, func(t *testing.T) {
			a := start(t)
			path := saved(t, house(t), "house.clampline")
			leave(t, a, pid, path, "Mains")
			a.KeepRecovery()
			says(t, a, "Restore unsaved changes?")
			says(t, a, "house.clampline")
			answer(t, a, "Restore")
			quiet(t, a)
			if part, _ := a.editor.Document().Part("supply-1"); part.Name != "Mains" || a.path != path {
				t.Errorf("got %q under %q", part.Name, a.path)
			}
			if a.editor.IsSaved() || a.window.Title() != "• house.clampline – Clampline" {
				t.Errorf("saved: %t, titled %q; want not saved", a.editor.IsSaved(), a.window.Title())
			}
			got := copies(t, a.options.Recovery)
			if len(got) != 1 || filepath.Dir(got[0]) != a.copy.folder {
				t.Errorf("got %q, want one copy of this process's own", got)
			}
			run(t, a, "save")
			quiet(t, a)
			if entries, _ := os.ReadDir(a.options.Recovery); len(entries) > 0 {
				t.Errorf("after saving: got %v, want nothing left", entries)
			}
		})
	}
}

// The copy that was left goes only when there is another.
func TestRestoredCopyStaysUntilThereIsAnother(t *testing.T) {
	a := start(t)
	leave(t, a, os.Getpid(), "", "Mains")
	a.KeepRecovery()
	h := &held{}
	a.copy.keeper.run = h.executor()
	answer(t, a, "Restore")
	if got := copies(t, a.options.Recovery); len(got) != 1 {
		t.Fatalf("got %q, want the copy that was left", got)
	}
	h.next()
	if got := copies(t, a.options.Recovery); len(got) != 1 || filepath.Dir(got[0]) != a.copy.folder {
		t.Errorf("got %q, want only one of this process's own", got)
	}
}

func TestOtherAnswersToTheOffer(t *testing.T) {
	for reply, left := range map[string]int{"Delete the copy": 0, "Later": 1} {
		a := start(t)
		leave(t, a, os.Getpid(), "", "Mains")
		a.KeepRecovery()
		says(t, a, "Restore the new sheet from")
		answer(t, a, reply)
		quiet(t, a)
		if got := copies(t, a.options.Recovery); len(got) != left {
			t.Errorf("%s: got %q, want %d", reply, got, left)
		}
		if parts, _, _ := a.editor.Document().Count(); parts > 0 {
			t.Errorf("%s: something was restored", reply)
		}
	}
}

func TestClock(t *testing.T) {
	now := time.Date(2026, 3, 4, 12, 0, 0, 0, time.Local)
	for _, row := range []struct {
		name string
		at   time.Time
		want string
	}{
		{"today", now.Add(-57 * time.Minute), "11:03"},
		{"yesterday", now.Add(-24 * time.Hour), "2026-03-03 12:00"},
	} {
		if got := clock(row.at, now); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// Of two copies, the second must not throw the first away unasked.
func TestTwoCopies(t *testing.T) {
	a := start(t)
	leave(t, a, os.Getpid(), "/one.clampline", "One")
	leave(t, a, os.Getpid(), "/two.clampline", "Two")
	a.KeepRecovery()
	answer(t, a, "Restore")
	first := a.path
	answer(t, a, "Restore")
	says(t, a, "changes that are not saved")
	answer(t, a, "Keep working")
	quiet(t, a)
	if a.path != first || len(copies(t, a.options.Recovery)) != 2 {
		t.Errorf("got %q open and copies %q, want the first sheet and both copies", a.path, copies(t, a.options.Recovery))
	}
}

// What a program keeps that runs is not offered; whether it runs is no question
// of the number of its process, which another may have by now.
func TestCopyOfARunningProgramIsNotOffered(t *testing.T) {
	a := start(t)
	leave(t, a, os.Getppid(), "", "Mains")
	folder := filepath.Dir(copies(t, a.options.Recovery)[0])
	lock, err := disk.TryLock(folder)
	if err != nil || !lock.Held() {
		t.Skipf("nothing can be locked here: %v", err)
	}
	a.KeepRecovery()
	quiet(t, a)
	if got := copies(t, a.options.Recovery); len(got) != 1 {
		t.Errorf("got %q, want the copy of the other program", got)
	}
	lock.Release()
	a.offerRecovery()
	says(t, a, "Restore the new sheet from")
}

// Two programs started at once do not both offer the same copy.
func TestCopyIsOfferedOnce(t *testing.T) {
	a := keeping(t)
	change(t, a, "Grid")
	a.keepCopy(nil)
	again := New(a.app, a.options)
	again.options.Inline, again.run = true, inline()
	again.KeepRecovery()
	quiet(t, again) // a runs still
	leave(t, a, os.Getppid(), "", "Mains")
	a.offerRecovery()
	says(t, a, "Restore the new sheet from")
	again.offerRecovery()
	quiet(t, again)
}

func TestFailingCopyIsToldAtOnce(t *testing.T) {
	a := keeping(t)
	if err := os.WriteFile(a.options.Recovery, nil, 0o600); err != nil { // where the folder belongs
		t.Fatal(err)
	}
	change(t, a, "Grid")
	a.keepCopy(nil)
	if got := a.status.doing.Text; !strings.HasPrefix(got, "No recovery copy of your changes could be written: not a directory.") && runtime.GOOS == "linux" {
		t.Errorf("the line says %q", got)
	}
	if got := a.savedText(); got != "not saved, and no recovery copy" {
		t.Errorf("the line says %q", got)
	}
	if err := os.Remove(a.options.Recovery); err != nil {
		t.Fatal(err)
	}
	a.keepCopy(nil)
	if got := a.savedText(); got != "not saved" {
		t.Errorf("once it is written: %q", got)
	}
}

func TestOlderCopySaysSoAndIsCompared(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	leave(t, a, os.Getpid(), path, "Mains")
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(path, later, later); err != nil {
		t.Fatal(err)
	}
	a.KeepRecovery()
	says(t, a, "The copy is older than the file")
	answer(t, a, "Compare")
	says(t, a, "supply Grid (supply-1): name Grid → Mains")
	answer(t, a, "Back")
	answer(t, a, "Restore")
	quiet(t, a)
	run(t, a, "save")
	says(t, a, "was changed by another program")
	if got := partsIn(t, path); got != "Grid, Main" {
		t.Errorf("the newer file was written over: %s", got)
	}
}

// A damaged copy falls back to the one before, and that is told.
func TestDamagedCopyFallsBack(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	leave(t, a, os.Getpid(), path, "Before")
	leave(t, a, os.Getpid(), path, "After")
	if err := os.WriteFile(copies(t, a.options.Recovery)[0], []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	a.KeepRecovery()
	says(t, a, "The newest copy is damaged; this is the one before it.")
	answer(t, a, "Restore")
	if got := a.editor.Document().NameOf("supply-1"); got != "Before" {
		t.Errorf("got %q", got)
	}
}

func TestBrokenCopyStays(t *testing.T) {
	a := start(t)
	leave(t, a, os.Getpid(), "", "Mains")
	path := copies(t, a.options.Recovery)[0]
	if err := os.WriteFile(path, []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	a.KeepRecovery()
	says(t, a, "the copy is damaged")
	if strings.Contains(wordsOf(asked(t, a)), "copy it again") {
		t.Error("it says what nobody can do")
	}
	answer(t, a, "Later")
	if !slices.Contains(copies(t, a.options.Recovery), path) {
		t.Error("the copy is gone")
	}
}
