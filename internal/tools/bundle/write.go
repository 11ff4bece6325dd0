package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/andybalholm/brotli"
)

// minSaving is what a compressed form must save to be worth a file, in bytes.
const minSaving = 64

// write replaces what lies in out by the site, each file with its compressed
// forms beside it. Forms of a file that is there already are kept: names carry
// the hash, and compressing the engine well takes seconds.
func (s *site) write(out string) error {
	wanted := []string{"placeholder.txt"}
	for url, content := range s.files {
		name := strings.TrimPrefix(url, "/")
		if url == "/" {
			name = "index.html"
		}
		forms, err := writeForms(filepath.Join(out, name), content, strings.HasPrefix(url, filesPath))
		if err != nil {
			return err
		}
		for _, ext := range forms {
			wanted = append(wanted, name+ext)
		}
	}
	return removeOthers(out, wanted)
}

// writeForms writes content and its forms, and returns the endings written.
func writeForms(target string, content []byte, hashed bool) ([]string, error) {
	if err := replace(target, content); err != nil {
		return nil, err
	}
	endings := []string{""}
	if path.Ext(target) == ".png" {
		return endings, nil // compressed already
	}
	for ext, compress := range map[string]func([]byte) ([]byte, error){".br": brotliForm, ".gz": gzipForm} {
		if _, err := os.Stat(target + ext); err == nil && hashed {
			endings = append(endings, ext)
			continue
		}
		form, err := compress(content)
		if err != nil {
			return nil, err
		}
		if len(form)+minSaving > len(content) {
			continue
		}
		if err := replace(target+ext, form); err != nil {
			return nil, err
		}
		endings = append(endings, ext)
	}
	return endings, nil
}

// replace writes a file whole or not at all.
func replace(target string, content []byte) error {
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(target+".part", content, 0o644); err != nil {
		return err
	}
	return os.Rename(target+".part", target)
}

func removeOthers(out string, wanted []string) error {
	return filepath.WalkDir(out, func(name string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		relative, err := filepath.Rel(out, name)
		if err != nil || slices.Contains(wanted, filepath.ToSlash(relative)) {
			return err
		}
		return os.Remove(name)
	})
}

func brotliForm(content []byte) ([]byte, error) {
	var b bytes.Buffer
	w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24})
	return finish(&b, w, content)
}

func gzipForm(content []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	return finish(&b, w, content)
}

func finish(b *bytes.Buffer, w io.WriteCloser, content []byte) ([]byte, error) {
	_, err := w.Write(content)
	if err != nil {
		return nil, err
	}
	err = w.Close()
	return b.Bytes(), err
}
