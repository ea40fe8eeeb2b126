package diagram

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // a logo may be one
	_ "image/png"
)

// Issue is what stands at the head of what is handed over, besides the title of the
// sheet. All of it may be empty.
type Issue struct {
	Firm     string
	Address  string
	Logo     string // as EncodeImage has it
	Number   string
	Revision string
	Date     string
}

// Bounds of an image that a sheet holds: a sheet is read whole, and its image is
// decoded for each page that bears it.
const (
	MostImage  = 200_000   // bytes of the file
	mostPixels = 1_000_000 // in all
)

var errNoImage = errors.New("it is no PNG or JPEG that can be read; choose another file, or save it anew")

// EncodeImage returns the text that a sheet has for a PNG or JPEG file. One that is
// none, or too large, is an error.
func EncodeImage(file []byte) (string, error) {
	if len(file) > MostImage {
		return "", fmt.Errorf("it has %d bytes; make it smaller, at most %d", len(file), MostImage)
	}
	size, format, err := image.DecodeConfig(bytes.NewReader(file))
	switch {
	case err != nil || format != "png" && format != "jpeg":
		return "", errNoImage
	case size.Width < 1 || size.Height < 1 || size.Width*size.Height > mostPixels:
		return "", fmt.Errorf("it has %d by %d pixels; make it smaller, at most %d in all", size.Width, size.Height, mostPixels)
	}
	if _, _, err := image.Decode(bytes.NewReader(file)); err != nil {
		return "", errNoImage
	}
	return base64.StdEncoding.EncodeToString(file), nil
}

// DecodeImage returns the file that EncodeImage was given: nothing of no text.
func DecodeImage(text string) ([]byte, error) {
	file, err := base64.StdEncoding.Strict().DecodeString(text)
	if err != nil {
		return nil, errors.New("it is no image in base64; choose the file anew")
	}
	return file, nil
}

// LogoFile returns the logo as a file; nil where there is none.
func (i Issue) LogoFile() []byte {
	file, err := DecodeImage(i.Logo)
	if err != nil || len(file) == 0 { // a document was checked: it holds nothing else
		return nil
	}
	return file
}

// image reports a text that is no image.
func (c *checker) image(id ID, field, text string) {
	if text == "" {
		return
	}
	file, err := DecodeImage(text)
	if err == nil {
		_, err = EncodeImage(file)
	}
	if err != nil {
		c.report(id, field, "the image cannot be used: "+err.Error(), "take it out, or choose another PNG or JPEG")
	}
}

// imageSaid names an image in a few words.
func imageSaid(text string) string {
	file, err := DecodeImage(text)
	if err != nil || len(file) == 0 {
		return ""
	}
	size, format, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil {
		return "an image"
	}
	name := map[string]string{"png": "PNG", "jpeg": "JPEG"}[format]
	return fmt.Sprintf("a %s of %d by %d pixels, %d bytes", name, size.Width, size.Height, len(file))
}
