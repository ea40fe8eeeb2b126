package edit_test

import (
	"errors"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// withTransformer is the house with a transformer, without feeders, between the
// panel and a point 60 mm to the left of it: its terminals lie above and below
// -80,60.
func withTransformer(t *testing.T) *edittest.Driver {
	t.Helper()
	d := drive(t)
	_, err := d.DropPart(diagram.Transformer, geom.Pt(-80, 60))
	must(t, err)
	d.Select()
	return d
}

// terminal returns where on the sheet a terminal lies.
func terminal(t *testing.T, d *edittest.Driver, end diagram.End) geom.Point {
	t.Helper()
	part, _ := d.Document().Part(end.Part)
	for dy := -20.0; dy <= 20; dy += 0.5 {
		at := part.At.Add(geom.Pt(0, dy))
		if found, place, ok := d.Scene().Terminal(at, 0.3); ok && found == end {
			return place
		}
	}
	t.Fatalf("there is no terminal %v", end)
	return geom.Point{}
}

// A terminal that is pointed at is taken, also where another one would suit the
// other part better; power then flows as the terminal says.
func TestTerminalPointedAtIsTaken(t *testing.T) {
	secondary := diagram.End{Part: "transformer-1", Port: diagram.Secondary}
	primary := diagram.End{Part: "transformer-1", Port: diagram.Primary}
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want string
	}{
		{"led to the secondary from the board above",
			func(d *edittest.Driver) {
				at := terminal(t, d, secondary)
				d.Hold(edit.Control).Drag(5, 0, at.X, at.Y)
			}, "feeder-3 transformer-1/secondary to switchboard-1"},
		{"led to the primary from the board above",
			func(d *edittest.Driver) {
				at := terminal(t, d, primary)
				d.Hold(edit.Control).Drag(5, 0, at.X, at.Y)
			}, "feeder-3 switchboard-1 to transformer-1/primary"},
		{"led from the secondary to the supply, which feeds all the same",
			func(d *edittest.Driver) {
				at := terminal(t, d, secondary)
				d.Drag(at.X, at.Y, 0, -60)
			}, "feeder-3 supply-1 to transformer-1/secondary"},
		{"led from the primary to a load, to which power flows",
			func(d *edittest.Driver) {
				at := terminal(t, d, primary)
				d.Drag(at.X, at.Y, 80, 60)
			}, "feeder-3 transformer-1/primary to load-1"},
		{"led with the tool from the primary",
			func(d *edittest.Driver) {
				at := terminal(t, d, primary)
				d.ArmFeeder()
				d.Drag(at.X, at.Y, 80, 60)
			}, "feeder-3 transformer-1/primary to load-1"},
		{"from the middle, at what suits",
			func(d *edittest.Driver) { d.Hold(edit.Control).Drag(-80, 60, 80, 60) },
			"feeder-3 transformer-1/secondary to load-1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := withTransformer(t)
			before := places(d.Document())
			row.do(d)
			if got := changed(before, places(d.Document())); got != "+"+row.want {
				t.Errorf("got %q, want %q (%s)", got, row.want, d.Status())
			}
		})
	}
}

// Two boards that nothing feeds: the higher one feeds, and side by side the first.
func TestTheHigherOfTwoFeeds(t *testing.T) {
	for _, row := range []struct {
		name string
		y    float64 // of panel-3; panel-2 stands at 100
		want string
	}{
		{"the second is lower", 120, "+feeder-3 panel-2 to panel-3"},
		{"the second is higher", 80, "+feeder-3 panel-3 to panel-2"},
		{"side by side", 100, "+feeder-3 panel-2 to panel-3"},
	} {
		d := drive(t)
		_, err := d.DropPart(diagram.Panel, geom.Pt(-80, 100))
		must(t, err)
		_, err = d.DropPart(diagram.Panel, geom.Pt(-140, row.y))
		must(t, err)
		before := places(d.Document())
		d.Select("panel-2", "panel-3")
		d.Key("C")
		if got := changed(before, places(d.Document())); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// What C and P do with a selection that they cannot use is to take up the tool.
func TestToolsAreTakenUp(t *testing.T) {
	for _, row := range []struct {
		picked []diagram.ID
		key    string
		want   string
	}{
		{[]diagram.ID{"load-1", "panel-1", "feeder-1"}, "C", "connect"},
		{[]diagram.ID{"load-1", "feeder-1"}, "C", "connect"},
		{[]diagram.ID{"load-1", "panel-1", "supply-1"}, "C", "connect"},
		{[]diagram.ID{"supply-1"}, "P", "attach protector"},
		{[]diagram.ID{"feeder-1"}, "P", "attach protector"},
		{[]diagram.ID{"load-1", "panel-1"}, "P", "attach protector"},
	} {
		d := drive(t)
		d.Select(row.picked...)
		if d.Key(row.key); d.Armed() != row.want || d.CanUndo() {
			t.Errorf("%s with %v selected: armed %q, changed %t, want %q", row.key, row.picked, d.Armed(), d.CanUndo(), row.want)
		}
	}
}

// What is refused says why, and the tool stays.
func TestRefusals(t *testing.T) {
	const (
		noEnd  = "a feeder ends at a part; there is none here"
		toSelf = "a feeder leads from one part to another, and both ends are the same part here"
		twice  = "a feeder leads between these terminals already; set its parallel conductors in the details"
		noHost = "a protector goes on a board, load or junction; there is none here"
	)
	for _, row := range []struct {
		name  string
		do    func(d *edittest.Driver)
		want  string // how the status begins
		armed string
	}{
		{"to nothing", func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, -80, 30) }, noEnd, "connect"},
		{"to nothing, without the tool", func(d *edittest.Driver) { d.Drag(80, 55, -80, 30) }, noEnd, ""},
		{"twice", func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 0, 5, 60) }, twice, "connect"},
		{"twice, the other way round", func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, 5, 0) }, twice, "connect"},
		{"to itself, by keys", func(d *edittest.Driver) { d.Select("panel-1"); d.Key("C", edit.KeyEnter, edit.KeyEnter) }, toSelf, "connect"},
		{"a part off the sheet", func(d *edittest.Driver) { d.Arm(diagram.Load); d.Hold(edit.Alt).Click(1e9, 0) }, "load-2, at.x: ", "place load"},
		{"no host", func(d *edittest.Driver) { d.ArmProtector(); d.Hover(-80, 30).Key(edit.KeyEnter) }, noHost, "attach protector"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := d.Status(); !strings.HasPrefix(got, row.want) {
				t.Errorf("status: got %q, want %q", got, row.want)
			}
			if d.Armed() != row.armed || d.CanUndo() {
				t.Errorf("armed %q, want %q; changed %t", d.Armed(), row.armed, d.CanUndo())
			}
			version := d.OverlayVersion()
			d.Key("Ctrl+=") // whatever is done next takes the message away
			if strings.HasPrefix(d.Status(), row.want) || d.OverlayVersion() == version {
				t.Errorf("after the next key: %q", d.Status())
			}
		})
	}
	d := drive(t)
	if _, err := d.AttachTo("gone"); err == nil || err.Error() != noHost {
		t.Errorf("attached to what is not there: %v", err)
	}
	if _, err := d.DropProtector(geom.Pt(-80, 30)); err == nil || err.Error() != noHost {
		t.Errorf("dropped beside: %v", err)
	}
	if id, err := d.DropProtector(geom.Pt(9, 60)); err != nil {
		t.Error(err)
	} else if got, _ := d.Document().Protector(id); got.Offset != 10 {
		t.Errorf("dropped 9 mm from the middle: got the offset %g, want 10 on the grid", got.Offset)
	}
}

// A default that the model refuses is told, and nothing is attached.
func TestProtectorThatIsNotValid(t *testing.T) {
	d := edittest.New(t, house(t), edit.Options{DefaultProtector: func(*diagram.Document, diagram.Part) diagram.Protector {
		return diagram.Protector{Rating: "none of the ratings"}
	}})
	d.ArmProtector()
	d.Click(5, 60)
	if d.Armed() != "attach protector" || d.CanUndo() || strings.HasPrefix(d.Status(), "Click") {
		t.Errorf("armed %q, changed %t, status %q", d.Armed(), d.CanUndo(), d.Status())
	}
	_, err := d.AttachTo("panel-1")
	if invalid := new(diagram.InvalidError); !errors.As(err, &invalid) {
		t.Errorf("got %v", err)
	}
}
