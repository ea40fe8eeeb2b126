package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"clampline/app"
	"clampline/app/sheet"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// wanted is the environment variable that asks for the test in a real window.
const wanted = "CLAMPLINE_WINDOW_TEST"

var (
	program  *app.App // in its window, while the tests run beside it
	filePath string
	closed   = make(chan struct{}) // once the window is
)

// TestMain gives the window its thread, the first, and runs the tests on
// another.
func TestMain(m *testing.M) {
	if os.Getenv(wanted) == "" {
		os.Exit(m.Run())
	}
	folder, err := os.MkdirTemp("", "clampline-window-")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(folder)
	filePath = filepath.Join(folder, "first.clampline")
	if os.Getenv(soakTime) != "" {
		writeLargeSheet(filePath)
	}
	program = start(filePath, false)
	status := make(chan int, 1)
	go func() {
		status <- m.Run()
		fyne.Do(func() { program.Window().SetCloseIntercept(nil); program.Window().Close() })
	}()
	program.Window().ShowAndRun()
	close(closed)
	if code := <-status; code != 0 {
		os.RemoveAll(folder)
		os.Exit(code)
	}
}

// hand is a person at the window: everything goes through xdotool.
type hand struct {
	t      *testing.T
	window string
}

func toolCommand(args ...string) *exec.Cmd { return exec.Command("xdotool", args...) }

func (h hand) xdotool(args ...string) string {
	h.t.Helper()
	out, err := toolCommand(args...).CombinedOutput()
	if err != nil {
		h.t.Fatalf("xdotool %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSpace(string(out))
}

func (h hand) moveTo(at fyne.Position) {
	h.t.Helper()
	h.xdotool("mousemove", "--window", h.window, fmt.Sprintf("%.0f", at.X), fmt.Sprintf("%.0f", at.Y))
}

func (h hand) click(at fyne.Position) {
	h.t.Helper()
	h.moveTo(at)
	time.Sleep(60 * time.Millisecond) // a person's hand: the toolkit looks at the pointer once a frame
	h.xdotool("click", "1")
	time.Sleep(60 * time.Millisecond)
}

func (h hand) drag(from, to fyne.Position) {
	h.t.Helper()
	h.moveTo(from)
	time.Sleep(60 * time.Millisecond)
	h.xdotool("mousedown", "1")
	for i := 1; i <= 8; i++ {
		share := float32(i) / 8
		h.moveTo(fyne.NewPos(from.X+(to.X-from.X)*share, from.Y+(to.Y-from.Y)*share))
		time.Sleep(25 * time.Millisecond)
	}
	h.xdotool("mouseup", "1")
	time.Sleep(60 * time.Millisecond)
}

func (h hand) keys(keys ...string) {
	h.t.Helper()
	for _, key := range keys {
		h.xdotool("key", key)
		time.Sleep(60 * time.Millisecond)
	}
}

// until waits for something that the window does in its own time.
func (h hand) until(what string, ok func() bool) {
	h.t.Helper()
	deadline := time.Now().Add(20 * time.Second)
	for time.Now().Before(deadline) {
		done := false
		fyne.DoAndWait(func() { done = ok() })
		if done {
			return
		}
		time.Sleep(30 * time.Millisecond)
	}
	h.screenshot("failed")
	h.t.Fatalf("the window did not come to show: %s", what)
}

func (h hand) screenshot(name string) {
	h.t.Helper()
	folder := os.Getenv("CLAMPLINE_ARTIFACTS")
	if folder == "" {
		folder = os.TempDir()
	}
	path := filepath.Join(folder, name+".png")
	if out, err := exec.Command("import", "-window", "root", path).CombinedOutput(); err != nil {
		h.t.Errorf("screenshot: %v\n%s", err, out)
		return
	}
	h.t.Logf("screenshot: %s", path)
}

// find returns where in the window the first visible object lies that the
// test accepts. The toolkit itself knows the places of widgets only, not of
// what they are made of.
func find(o fyne.CanvasObject, at fyne.Position, accept func(fyne.CanvasObject) bool) (fyne.CanvasObject, fyne.Position, bool) {
	at = at.Add(o.Position())
	if !o.Visible() {
		return nil, at, false
	}
	if accept(o) {
		return o, at, true
	}
	var inside []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		inside = o.Objects
	case fyne.Widget:
		inside = test.WidgetRenderer(o).Objects()
	}
	for _, child := range inside {
		if found, place, ok := find(child, at, accept); ok {
			return found, place, true
		}
	}
	return nil, at, false
}

// place waits for an object that the test accepts, and returns it and where
// its left top corner lies in the window.
func (h hand) place(what string, accept func(fyne.CanvasObject) bool) (fyne.CanvasObject, fyne.Position) {
	h.t.Helper()
	var object fyne.CanvasObject
	var at fyne.Position
	h.until(what, func() (ok bool) {
		content := program.Window().Content()
		corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(content).Subtract(content.Position())
		object, at, ok = find(content, corner, accept)
		return ok
	})
	return object, at
}

// caption returns the middle of the text in the window.
func (h hand) caption(text string) fyne.Position {
	h.t.Helper()
	object, at := h.place("the words "+text, func(o fyne.CanvasObject) bool {
		label, ok := o.(*canvas.Text)
		return ok && label.Text == text
	})
	return at.Add(fyne.NewPos(object.Size().Width/2, object.Size().Height/2))
}

// onSheet returns where in the window a place on the sheet is.
func (h hand) onSheet(p geom.Point) fyne.Position {
	h.t.Helper()
	_, at := h.place("the sheet", func(o fyne.CanvasObject) bool { _, ok := o.(*sheet.Sheet); return ok })
	var screen edit.ScreenPoint
	fyne.DoAndWait(func() { screen = program.Editor().View().ToScreen(p) })
	return at.Add(fyne.NewPos(float32(screen.X), float32(screen.Y)))
}

// shows reports whether some text on the drawing contains the words.
func shows(editor *edit.Editor, words string) bool {
	for _, item := range editor.Scene().Picture().Items() {
		if item.Text != nil && strings.Contains(strings.ReplaceAll(item.Text.String, "\u00a0", " "), words) {
			return true
		}
	}
	return false
}

// TestWindow does the job once as a person does: place, connect, protect, type
// a lead length, see the number change, undo, save; then the terminal program
// prints the same number.
func TestWindow(t *testing.T) {
	if os.Getenv(wanted) == "" {
		t.Skipf("set %s to drive the program in a real window", wanted)
	}
	h := hand{t: t}
	h.until("its title", func() bool { return strings.Contains(program.Window().Title(), "first.clampline") })
	h.window = strings.Fields(h.xdotool("search", "--sync", "--onlyvisible", "--name", "Clampline"))[0]
	h.xdotool("windowactivate", "--sync", h.window)
	count := func(parts, feeders, protectors int) func() bool {
		return func() bool {
			p, f, s := program.Editor().Document().Count()
			return p == parts && f == feeders && s == protectors
		}
	}
	var middle geom.Point
	fyne.DoAndWait(func() { middle = program.Editor().View().Middle().Snap(5) })
	supply, panel := middle.Add(geom.Pt(0, -40)), middle.Add(geom.Pt(0, 20))

	h.click(h.caption("Supply"))
	h.click(h.onSheet(supply))
	h.until("a supply", count(1, 0, 0))
	h.drag(h.caption("Panel"), h.onSheet(panel))
	h.until("a panel", count(2, 0, 0))
	h.click(h.caption("Feeder"))
	h.click(h.onSheet(supply))
	h.click(h.onSheet(panel))
	h.until("a feeder", count(2, 1, 0))
	h.keys("Escape")
	h.until("no protector yet", func() bool { return shows(program.Editor(), "no protector reaches it") })
	h.keys("p", "Tab", "Return") // as Help tells
	h.until("a protector", count(2, 1, 1))
	h.until("the voltage with the leads of the listing test", func() bool { return shows(program.Editor(), "2 000 V L-L") })

	field := h.caption("All leads").Add(fyne.NewPos(150, 0))
	h.click(field)
	h.keys("ctrl+a")
	h.xdotool("type", "--delay", "40", "26 in")
	h.keys("Return")
	h.until("500 V more for twenty inches more", func() bool { return shows(program.Editor(), "2 500 V L-L") })
	h.screenshot("window")

	h.moveTo(h.onSheet(panel.Add(geom.Pt(-14, 0))))
	time.Sleep(60 * time.Millisecond)
	h.xdotool("click", "--repeat", "2", "--delay", "80", "1")
	h.xdotool("type", "--delay", "40", "Hall")
	h.keys("Return")
	h.until("the name typed over the old one", func() bool { return program.Editor().Document().NameOf("panel-1") == "Hall" })
	h.keys("ctrl+z")

	h.click(h.onSheet(middle.Add(geom.Pt(60, 50))))
	h.keys("ctrl+z")
	h.until("the voltage from before", func() bool { return shows(program.Editor(), "2 000 V L-L") })
	h.keys("ctrl+y")
	h.until("the voltage again", func() bool { return shows(program.Editor(), "2 500 V L-L") })
	h.keys("ctrl+s")
	h.until("that it is saved", func() bool { return program.Editor().IsSaved() })
	if got := terminalVolts(t); math.Abs(got-2500) > 1e-6 {
		t.Errorf("the terminal program prints %g V, want the 2500 V of the tag", got)
	}
}

// terminalVolts returns what clampcalc prints for the only bus of the file.
func terminalVolts(t *testing.T) float64 {
	t.Helper()
	out, err := exec.Command("go", "run", "clampline/cmd/clampcalc", "levels", filePath, "--json").Output()
	if err != nil {
		t.Fatalf("clampcalc levels: %v\n%s", err, out)
	}
	var rows []struct{ Volts float64 }
	if err := json.Unmarshal(out, &rows); err != nil || len(rows) != 1 {
		t.Fatalf("clampcalc levels printed %s (%v), want one bus", out, err)
	}
	return rows[0].Volts
}
