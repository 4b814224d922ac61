package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
)

// form says how an object is written.
type form uint8

const (
	plain   form = iota // no stream
	ready               // a stream that is written as it stands
	deflate             // a stream that is compressed on the way
)

// object is one of a PDF's numbered objects. Of a stream, dict is left open
// and lacks /Length; the writer adds it. No string in dict holds anything that
// reads like a reference: finish writes text in hexadecimal, and fpdf is given
// none.
type object struct {
	dict   string
	stream []byte
	form   form
}

// file is a PDF in parts; objects[0] is not used.
type file struct{ objects []object }

func (f *file) add(o object) int {
	f.objects = append(f.objects, o)
	return len(f.objects) - 1
}

var errNotFpdf = errors.New("fpdf's file is not of the expected form")

// read takes apart a file just written by fpdf, by its own cross-reference
// table.
func read(raw []byte) (*file, error) {
	starts, xref, err := offsets(raw)
	if err != nil {
		return nil, err
	}
	order := slices.Clone(starts[1:])
	slices.Sort(order)
	f := &file{objects: make([]object, len(starts), 2*len(starts))}
	for n := 1; n < len(starts); n++ {
		end := xref
		if next, _ := slices.BinarySearch(order, starts[n]+1); next < len(order) {
			end = order[next]
		}
		f.objects[n], err = readObject(raw[starts[n]:end], n)
		if err != nil {
			return nil, err
		}
	}
	return f, nil
}

// offsets returns where each object begins, by number, and where the table
// of that begins.
func offsets(raw []byte) (starts []int, xref int, err error) {
	const entrySize = 20
	tail := bytes.LastIndex(raw, []byte("startxref\n"))
	if tail < 0 {
		return nil, 0, errNotFpdf
	}
	if _, err := fmt.Sscanf(string(raw[tail:]), "startxref\n%d", &xref); err != nil || xref < 0 || xref >= tail {
		return nil, 0, errNotFpdf
	}
	head, table, ok := bytes.Cut(raw[xref:tail], []byte(" \n")) // the first entry ends here
	var count int
	if _, err := fmt.Sscanf(string(head), "xref\n0 %d\n", &count); !ok || err != nil || count < 1 || len(table) < (count-1)*entrySize {
		return nil, 0, errNotFpdf
	}
	starts = make([]int, count)
	for n := 1; n < count; n++ {
		at, err := strconv.Atoi(string(table[(n-1)*entrySize:][:10]))
		if err != nil || at <= 0 || at >= xref {
			return nil, 0, errNotFpdf
		}
		starts[n] = at
	}
	return starts, xref, nil
}

func readObject(raw []byte, n int) (object, error) {
	body, ok := bytes.CutPrefix(raw, []byte(strconv.Itoa(n)+" 0 obj\n"))
	body, whole := bytes.CutSuffix(body, []byte("\nendobj\n"))
	if !ok || !whole {
		return object{}, errNotFpdf
	}
	dict, stream, ok := bytes.Cut(body, []byte(">>\nstream\n"))
	if !ok {
		return object{dict: string(body)}, nil
	}
	stream, ok = bytes.CutSuffix(stream, []byte("\nendstream"))
	if !ok {
		return object{}, errNotFpdf
	}
	open, _, ok := strings.Cut(string(dict), "/Length ")
	if !ok {
		return object{}, errNotFpdf
	}
	if strings.Contains(open, "/Filter") {
		return object{open, stream, ready}, nil
	}
	return object{open, stream, deflate}, nil
}

// write puts out all that is reached from the catalogue and the information
// dictionary, numbered in the order it is reached: fpdf's numbers of pictures
// are random.
func (f *file) write(catalog, info int) ([]byte, error) {
	order, numbers := f.reach(catalog, info)
	streams, err := f.deflated(order)
	if err != nil {
		return nil, err
	}
	size := 0
	for i, n := range order {
		size += len(f.objects[n].dict) + len(streams[i]) + 100
	}
	out := append(make([]byte, 0, size), "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n"...)
	starts := make([]int, len(order))
	for i, n := range order {
		starts[i] = len(out)
		out = append(strconv.AppendInt(out, int64(i+1), 10), " 0 obj\n"...)
		out = appendRenumbered(out, f.objects[n].dict, numbers)
		if f.objects[n].form != plain {
			out = appendStream(out, streams[i], f.objects[n].form)
		}
		out = append(out, "\nendobj\n"...)
	}
	return appendTail(out, starts, numbers[catalog], numbers[info]), nil
}

func appendStream(out, stream []byte, form form) []byte {
	if form == deflate {
		out = append(out, "/Filter/FlateDecode"...)
	}
	out = strconv.AppendInt(append(out, "/Length "...), int64(len(stream)), 10)
	out = append(out, ">>\nstream\n"...)
	out = append(out, stream...)
	return append(out, "\nendstream"...)
}

// appendTail adds the cross-reference table and the trailer. The identifier
// is a hash of all that comes before it.
func appendTail(out []byte, starts []int, catalog, info int) []byte {
	sum := sha256.Sum256(out)
	at, size := len(out), len(starts)+1
	out = fmt.Appendf(out, "xref\n0 %d\n0000000000 65535 f \n", size)
	for _, start := range starts {
		out = fmt.Appendf(out, "%010d 00000 n \n", start)
	}
	return fmt.Appendf(out, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R/ID[<%x><%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		size, catalog, info, sum[:16], sum[:16], at)
}

// reach walks from the roots and returns the objects in the order they are
// met, and each one's place in it, from 1.
func (f *file) reach(roots ...int) (order, numbers []int) {
	numbers = make([]int, len(f.objects))
	var visit func(n int)
	visit = func(n int) {
		if numbers[n] != 0 {
			return
		}
		order = append(order, n)
		numbers[n] = len(order)
		for _, to := range references(f.objects[n].dict) {
			visit(to)
		}
	}
	for _, n := range roots {
		visit(n)
	}
	return order, numbers
}

// deflated returns the streams in that order as they are written. Each is
// deflated by itself, so that as many processors as there are can share the
// work, and the result is the same for any number of them.
func (f *file) deflated(order []int) ([][]byte, error) {
	const level = 2 // a spring pack of 231 kB; the best speed makes it 251 kB
	streams := make([][]byte, len(order))
	workers := min(runtime.GOMAXPROCS(0), 4)
	errs := make([]error, workers)
	var next atomic.Int64
	var wait sync.WaitGroup
	for worker := range workers {
		wait.Go(func() {
			var buffer bytes.Buffer
			w, err := zlib.NewWriterLevel(&buffer, level)
			for i := next.Add(1) - 1; err == nil && i < int64(len(order)); i = next.Add(1) - 1 {
				streams[i] = f.objects[order[i]].stream
				if f.objects[order[i]].form == deflate {
					streams[i], err = deflatedBy(w, &buffer, streams[i])
				}
			}
			errs[worker] = err
		})
	}
	wait.Wait()
	return streams, errors.Join(errs...)
}

// deflatedBy deflates one stream with a writer to the buffer.
func deflatedBy(w *zlib.Writer, buffer *bytes.Buffer, stream []byte) ([]byte, error) {
	buffer.Reset()
	w.Reset(buffer)
	if _, err := w.Write(stream); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return bytes.Clone(buffer.Bytes()), nil
}

// nextReference finds the first "n 0 R" in dict and returns its bounds and n.
func nextReference(dict string) (from, to, n int, ok bool) {
	const mark = " 0 R"
	for base := 0; ; {
		i := strings.Index(dict[base:], mark)
		if i < 0 {
			return 0, 0, 0, false
		}
		end := base + i
		from = end
		for from > base && dict[from-1] >= '0' && dict[from-1] <= '9' {
			from--
		}
		if n, err := strconv.Atoi(dict[from:end]); err == nil {
			return from, end + len(mark), n, true
		}
		base = end + len(mark)
	}
}

// references lists the objects dict names, in order, the parent of a page or
// bookmark included.
func references(dict string) []int {
	var list []int
	for {
		_, to, n, ok := nextReference(dict)
		if !ok {
			return list
		}
		list = append(list, n)
		dict = dict[to:]
	}
}

// appendRenumbered appends dict with each reference given its new number.
func appendRenumbered(out []byte, dict string, numbers []int) []byte {
	for {
		from, to, n, ok := nextReference(dict)
		if !ok {
			return append(out, dict...)
		}
		out = append(out, dict[:from]...)
		out = append(strconv.AppendInt(out, int64(numbers[n]), 10), " 0 R"...)
		dict = dict[to:]
	}
}
