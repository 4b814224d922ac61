// Package reader reads PDFs, whoever wrote them: files attached, pages,
// pictures. It is the only importer of the PDF library. Everything that comes
// in is taken for hostile: sizes are bounded, and a panic of the library ends
// here, as an error.
package reader

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// MostBytes is the largest PDF that is read.
const MostBytes = 256 << 20

// Errors that Open returns, some of them with more words behind.
var (
	ErrNotPDF    = errors.New("this is not a PDF")
	ErrEncrypted = errors.New("this PDF is encrypted: save it without a password")
	ErrDamaged   = errors.New("this PDF is damaged or cut short")
	ErrTooLarge  = fmt.Errorf("this PDF is larger than %d MB", MostBytes>>20)
)

// Document is a PDF that has been opened. One goroutine at a time may read it.
type Document struct {
	ctx  *model.Context
	root types.Dict
}

// IsPDF says whether data begins as a PDF does. Readers take up to 1,024 bytes
// before it (ISO 32000-1, annex H.3), which mail systems sometimes leave there.
func IsPDF(data []byte) bool { return start(data) >= 0 }

func start(data []byte) int {
	const window = 1024
	return bytes.Index(data[:min(len(data), window)], []byte("%PDF-"))
}

// Open opens a PDF. Errors are those above.
func Open(data []byte) (d *Document, err error) {
	from := start(data)
	switch {
	case from < 0:
		return nil, ErrNotPDF
	case len(data) > MostBytes:
		return nil, ErrTooLarge
	}
	data = data[from:]
	err = guarded(func() error {
		ctx, err := pdfcpu.Read(bytes.NewReader(data), configuration())
		if err != nil {
			return plainError(err)
		}
		if ctx.E != nil || ctx.Encrypt != nil {
			return ErrEncrypted
		}
		root, err := ctx.Catalog()
		if err != nil || root == nil {
			return ErrDamaged
		}
		d = &Document{ctx, root}
		return nil
	})
	return d, err
}

// guarded turns a panic of the library into an error.
func guarded(do func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = ErrDamaged
		}
	}()
	return do()
}

// configuration is made by hand: the library's own default looks for a file in
// the user's folder and asks for the time.
func configuration() *model.Configuration {
	limits := model.DefaultResourceLimits()
	limits.MaxStreamBytes = MostBytes
	limits.MaxDecodeBytes = mostDecoded
	limits.MaxObjectCount = mostObjects
	limits.MaxXRefEntries = mostObjects
	limits.MaxObjectStreamCount = mostObjects
	return &model.Configuration{
		Reader15:       true,
		ValidationMode: model.ValidationRelaxed,
		Offline:        true,
		Limits:         limits,
	}
}

const (
	mostDecoded = 128 << 20 // of one stream
	mostObjects = 1 << 20
)

// plainError puts what the library found in a designer's words.
func plainError(err error) error {
	for _, locked := range []error{pdfcpu.ErrWrongPassword, pdfcpu.ErrEncrypted, pdfcpu.ErrMalformedEncryption, pdfcpu.ErrUnsupportedEncryptionFeature} {
		if errors.Is(err, locked) {
			return ErrEncrypted
		}
	}
	return ErrDamaged
}
