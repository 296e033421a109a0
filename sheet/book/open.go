package book

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"unicode/utf8"
)

// Open reads a workbook. The error of a file that is not a whole, sound
// workbook is a *Refusal.
func Open(r io.ReaderAt, size int64) (*Book, error) {
	if err := sniff(r, size); err != nil {
		return nil, err
	}
	p, err := openParcel(r, size)
	if err != nil {
		return nil, err
	}
	b, err := readWorkbook(p)
	if err != nil {
		return nil, err
	}
	b.source, b.sourceSize = r, size
	return b, nil
}

// OpenBytes reads a workbook that is in memory.
func OpenBytes(data []byte) (*Book, error) {
	return Open(bytes.NewReader(data), int64(len(data)))
}

// sniff tells by its first bytes what a file is, whatever it is called; nil
// for a zip package.
func sniff(r io.ReaderAt, size int64) error {
	if size == 0 {
		return &Refusal{Reason: IsEmpty}
	}
	if size > maxFile {
		return tooLarge("", "it has %d MB, more than %d MB", size>>20, maxFile>>20)
	}
	head := make([]byte, min(size, 4096))
	if n, err := r.ReadAt(head, 0); n < len(head) {
		if err == nil || errors.Is(err, io.EOF) {
			err = io.ErrUnexpectedEOF
		}
		return &Refusal{Reason: IsUnreadable, Detail: err.Error(), Err: err}
	}
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return nil
	case bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")):
		return sniffCompound(r, size)
	case bytes.HasPrefix(head, []byte("\x09\x08")), bytes.HasPrefix(head, []byte("\x09\x04")):
		return &Refusal{Reason: IsOld}
	case looksLikeText(head):
		return &Refusal{Reason: IsText}
	}
	return &Refusal{Reason: IsOther}
}

// sniffCompound tells an encrypted workbook from an old one: both are
// compound files ([MS-CFB]), whose directory names their streams in UTF-16
// ([MS-OFFCRYPTO] 2.3.4.4 EncryptedPackage).
func sniffCompound(r io.ReaderAt, size int64) error {
	data, err := io.ReadAll(io.NewSectionReader(r, 0, min(size, 64<<20)))
	if err != nil {
		return &Refusal{Reason: IsUnreadable, Detail: err.Error(), Err: err}
	}
	switch {
	case bytes.Contains(data, wide("EncryptedPackage")):
		return &Refusal{Reason: IsEncrypted}
	case bytes.Contains(data, wide("Workbook")), bytes.Contains(data, wide("Book")):
		return &Refusal{Reason: IsOld}
	}
	return &Refusal{Reason: IsOther}
}

func wide(s string) []byte {
	return []byte(strings.Join(strings.Split(s, ""), "\x00") + "\x00")
}

func looksLikeText(head []byte) bool {
	if bytes.HasPrefix(head, []byte("\xff\xfe")) || bytes.HasPrefix(head, []byte("\xfe\xff")) {
		return true
	}
	for i := 0; i < utf8.UTFMax && i < len(head); i++ {
		if utf8.Valid(head[:len(head)-i]) {
			head = head[:len(head)-i]
			break
		}
	}
	for _, b := range head {
		if b < 0x20 && b != '\t' && b != '\n' && b != '\r' && b != '\f' {
			return false
		}
	}
	return true
}
