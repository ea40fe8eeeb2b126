package main

import "slices"

// need is what a machine is set up for. A greater need includes the smaller.
type need int

const (
	toBuild need = iota // compile and run the editor
	toTest              // and open its real window on a virtual screen
)

// manager is how a family of systems names and installs packages.
type manager struct {
	forBuild []string
	forTest  []string
	wanted   []string // what tests use where it is to be had, and else leave out
	query    []string // tells whether the package named after it is installed
	refresh  []string // reads the list of packages anew; may be empty
	install  []string // installs the packages named after it, asking nothing
}

// packages returns the names of the packages that n takes.
func (m manager) packages(n need) []string {
	if n == toTest {
		return slices.Concat(m.forBuild, m.forTest)
	}
	return m.forBuild
}

// missing returns those of names that installed does not know, in their order.
func missing(names []string, installed func(name string) bool) []string {
	var absent []string
	for _, name := range names {
		if !installed(name) {
			absent = append(absent, name)
		}
	}
	return absent
}

// managerOf returns how packages are installed on f; ok is false if that is
// left to the person.
func managerOf(f family) (m manager, ok bool) {
	switch f {
	case debianFamily:
		return debianManager(), true
	case fedoraFamily:
		return fedoraManager(), true
	case archFamily:
		return archManager(), true
	}
	return manager{}, false
}

// libc6-dev is named because gcc only recommends it there, and recommendations
// are left out.
func debianManager() manager {
	return manager{
		forBuild: []string{
			"gcc", "libc6-dev", "pkg-config", "libgl1-mesa-dev", "libx11-dev", "libxcursor-dev", "libxrandr-dev",
			"libxinerama-dev", "libxi-dev", "libxxf86vm-dev", "libwayland-dev", "libxkbcommon-dev",
		},
		forTest: []string{"xvfb", "openbox", "xdotool", "imagemagick", "xclip", "libgl1-mesa-dri", "ngspice", "strace", "qpdf", "poppler-utils", "python3-ezdxf", "python3-openpyxl"},
		wanted:  []string{"chromium"},
		query:   []string{"dpkg-query", "-W", "-f", "${db:Status-Status}\n"},
		refresh: []string{"apt-get", "-qq", "update"},
		install: []string{
			"apt-get", "-qq", "-y", "-o", "DPkg::Lock::Timeout=120", "-o", "Acquire::Retries=3",
			"install", "--no-install-recommends",
		},
	}
}

func fedoraManager() manager {
	return manager{
		forBuild: []string{
			"gcc", "pkgconf-pkg-config", "mesa-libGL-devel", "libX11-devel", "libXcursor-devel", "libXrandr-devel",
			"libXinerama-devel", "libXi-devel", "libXxf86vm-devel", "wayland-devel", "libxkbcommon-devel",
		},
		forTest: []string{"xorg-x11-server-Xvfb", "openbox", "xdotool", "ImageMagick", "xclip", "mesa-dri-drivers", "ngspice", "strace", "qpdf", "poppler-utils", "python3-ezdxf", "python3-openpyxl"},
		wanted:  []string{"chromium"},
		query:   []string{"rpm", "-q", "--whatprovides"},
		install: []string{"dnf", "-q", "-y", "install", "--setopt=install_weak_deps=False"},
	}
}

func archManager() manager {
	return manager{
		forBuild: []string{
			"gcc", "pkgconf", "libglvnd", "libx11", "libxcursor", "libxrandr",
			"libxinerama", "libxi", "libxxf86vm", "wayland", "libxkbcommon",
		},
		forTest: []string{"xorg-server-xvfb", "openbox", "xdotool", "imagemagick", "xclip", "mesa", "ngspice", "strace", "qpdf", "poppler"},
		wanted:  []string{"chromium"},
		query:   []string{"pacman", "-Q"},
		install: []string{"pacman", "-S", "--needed", "--noconfirm"},
	}
}

// buildLibraries returns the pkg-config names of what the editor is linked
// with, for systems whose package names are not known here.
func buildLibraries() []string {
	return []string{"gl", "x11", "xcursor", "xrandr", "xinerama", "xi", "xxf86vm", "wayland-client", "xkbcommon"}
}

// testPrograms returns the programs that the tests call.
func testPrograms() []string {
	return []string{"Xvfb", "openbox", "xdotool", "import", "xclip", "ngspice", "strace", "qpdf", "pdftotext"}
}
