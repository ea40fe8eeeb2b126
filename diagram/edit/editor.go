package edit

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// Clipboard is where copied text goes and comes from.
type Clipboard interface {
	Content() string
	SetContent(text string)
}

// Options say what an editor needs from its surroundings. The zero value
// works.
type Options struct {
	Scene scene.Options // what the sheet shows, and the convention of new parts

	// DefaultProtector returns what a new protector on the host is; the editor
	// sets its id, plan, bus and offset. Where it is nil, a new protector has
	// plain leads and nothing else.
	DefaultProtector func(doc *diagram.Document, host diagram.Part) diagram.Protector

	// FocusDetails is called when the person asks for the details of the
	// selection, as by a double-click. It may be nil.
	FocusDetails func()

	// Clipboard is that of the system; nil stands for one of the editor's own.
	Clipboard Clipboard
}

// Editor is one sheet being worked on. Use New.
type Editor struct {
	doc        *diagram.Document
	options    Options
	plan       diagram.ID
	against    diagram.ID   // the plan that this one is compared with, where one was chosen
	marking    bool         // what differs from that plan is marked
	differing  differing    // of the two, as they were last
	glance     *glance      // at another plan, while a key is held; or nil
	selected   []diagram.ID // in order, each once; replaced, never altered
	history    history
	mark       *mark // of the gesture that is under way, or nil
	tool       tool
	view       View
	fitted     View    // of the last ZoomFit; of no scale before the first
	wheel      float64 // px scrolled since the last step of the zoom
	pointer    pointer
	hovered    scene.Target // what lies under the pointer of an idle tool
	notice     string       // why the last thing was not done, until the next
	attachedTo diagram.ID   // the part round which keys go through what is attached
	marks      scene.Marks
	scene      *scene.Scene // nil where it has to be made anew
	last       *scene.Scene // that was made last, for its tags to stay; nil before the first
	overlay    *draw.Picture
	versions   versions
}

// pointer is where the person points, by mouse or, with a tool that waits for
// a place, by the arrow keys.
type pointer struct {
	at    geom.Point
	known bool
}

type versions struct{ document, scene, view, selection, overlay uint64 }

// New returns an editor of the document, which from now on must be changed
// through the editor alone. It shows the plan that was looked at last, at 100 %,
// and counts as saved.
func New(doc *diagram.Document, options Options) *Editor {
	if options.Clipboard == nil {
		options.Clipboard = new(memory)
	}
	return &Editor{
		doc:     doc,
		options: options,
		plan:    doc.Shown(),
		tool:    selecting{},
		view:    View{Scale: FullScale},
	}
}

// Document returns the document, to be read only. Hand other goroutines a
// Snapshot.
func (e *Editor) Document() *diagram.Document { return e.doc }

// Plan returns the id of the plan that is shown and worked on.
func (e *Editor) Plan() diagram.ID { return e.plan }

func (e *Editor) hasPlan(id diagram.ID) bool {
	_, ok := e.doc.Plan(id)
	return ok
}

// SetMarks shows what an analysis says about the sheet.
func (e *Editor) SetMarks(marks scene.Marks) {
	e.marks = marks
	e.sceneChanged()
}

// SetOptions changes what the sheet shows and the convention of new parts.
func (e *Editor) SetOptions(options scene.Options) {
	if options == e.options.Scene {
		return
	}
	e.options.Scene = options
	e.sceneChanged()
}

// Scene returns the sheet as it is now. It is made at the first call after
// something has changed and kept until the next change.
func (e *Editor) Scene() *scene.Scene {
	if e.scene == nil {
		marks := e.marks
		marks.Differences = e.Differences()
		if e.last == nil {
			e.last = scene.New(e.doc, e.plan, marks, e.options.Scene)
		} else {
			e.last = e.last.Next(e.doc, e.plan, marks, e.options.Scene)
		}
		e.scene = e.last
	}
	return e.scene
}

// DocumentVersion returns a number that rises with each change of the
// document, also during a gesture.
func (e *Editor) DocumentVersion() uint64 { return e.versions.document }

// SceneVersion returns a number that rises when Scene would return another
// one: the document, the plan, the marks or the options changed.
func (e *Editor) SceneVersion() uint64 { return e.versions.scene }

// ViewVersion returns a number that rises when View changes.
func (e *Editor) ViewVersion() uint64 { return e.versions.view }

// SelectionVersion returns a number that rises when Selection changes.
func (e *Editor) SelectionVersion() uint64 { return e.versions.selection }

// OverlayVersion returns a number that rises when Overlay, Status or Cursor
// may have changed.
func (e *Editor) OverlayVersion() uint64 { return e.versions.overlay }

func (e *Editor) documentChanged() {
	e.versions.document++
	e.sceneChanged()
}

func (e *Editor) sceneChanged() {
	e.scene = nil
	e.versions.scene++
	e.overlayChanged()
}

func (e *Editor) overlayChanged() {
	e.overlay = nil
	e.versions.overlay++
}
