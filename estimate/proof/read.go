package proof

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
)

// read decodes one JSON object and nothing after it.
func read(r io.Reader) (*file, error) {
	limited := &io.LimitedReader{R: r, N: SizeLimit + 1}
	decoder := json.NewDecoder(limited)
	f := &file{}
	err := f.decode(decoder)
	switch {
	case limited.N <= 0:
		return nil, fmt.Errorf("the file has more than %d MB", SizeLimit>>20)
	case err != nil:
		return nil, fmt.Errorf("the file is no result: %w", err)
	case f.Schema != Schema:
		return nil, fmt.Errorf("the file's schema is %.60q, not %q", f.Schema, Schema)
	}
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("there is more in the file after the result")
	}
	return f, nil
}

// decode takes the file in part by part and lists entry by entry: a decoder keeps
// the whole text of what it is asked for at once.
func (f *file) decode(d *json.Decoder) error {
	if err := expect(d, json.Delim('{')); err != nil {
		return err
	}
	parts := f.parts()
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return err
		}
		part, known := parts[key.(string)]
		if !known {
			part = reflect.ValueOf(new(json.RawMessage)).Elem()
		}
		if err := decodePart(d, part); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
	}
	return expect(d, json.Delim('}'))
}

// parts are the fields of the file by their keys.
func (f *file) parts() map[string]reflect.Value {
	fields := reflect.ValueOf(f).Elem()
	parts := map[string]reflect.Value{}
	for i := range fields.NumField() {
		parts[fields.Type().Field(i).Tag.Get("json")] = fields.Field(i)
	}
	return parts
}

func decodePart(d *json.Decoder, part reflect.Value) error {
	part.SetZero()
	if part.Kind() != reflect.Slice || part.Type() == reflect.TypeFor[json.RawMessage]() {
		return d.Decode(part.Addr().Interface())
	}
	switch opening, err := d.Token(); {
	case err != nil:
		return err
	case opening == nil:
		return nil
	case opening != json.Delim('['):
		return fmt.Errorf("found %v, not a list", opening)
	}
	for d.More() {
		part.Grow(1)
		part.SetLen(part.Len() + 1)
		if err := d.Decode(part.Index(part.Len() - 1).Addr().Interface()); err != nil {
			return err
		}
	}
	return expect(d, json.Delim(']'))
}

func expect(d *json.Decoder, want json.Delim) error {
	switch token, err := d.Token(); {
	case err != nil:
		return err
	case token != want:
		return fmt.Errorf("found %v, not %v", token, want)
	}
	return nil
}
