package exchange

import (
	"encoding/xml"
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"laybill/estimate/job"
	"laybill/estimate/money"
	"laybill/estimate/purchase"
)

// The documents below are the part of the OASIS standard Universal Business
// Language 2.4 that an order fills, element by element in the order of its
// schema. Empty elements are left out: the standard allows none.

const (
	ublOrderSpace     = "urn:oasis:names:specification:ubl:schema:xsd:Order-2"
	ublAggregateSpace = "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2"
	ublBasicSpace     = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"
	ublOrderType      = "220" // order, UN/EDIFACT code list 1001
)

type ublDocument struct {
	XMLName   xml.Name       `xml:"Order"`
	Space     string         `xml:"xmlns,attr"`
	Aggregate string         `xml:"xmlns:cac,attr"`
	Basic     string         `xml:"xmlns:cbc,attr"`
	Version   string         `xml:"cbc:UBLVersionID"`
	ID        string         `xml:"cbc:ID"`
	IssueDate string         `xml:"cbc:IssueDate"`
	Type      string         `xml:"cbc:OrderTypeCode"`
	Notes     []string       `xml:"cbc:Note"`
	Currency  string         `xml:"cbc:DocumentCurrencyCode"`
	Reference string         `xml:"cbc:CustomerReference,omitempty"`
	Lines     int            `xml:"cbc:LineCountNumeric"`
	Buyer     ublCustomer    `xml:"cac:BuyerCustomerParty"`
	Seller    ublCustomer    `xml:"cac:SellerSupplierParty"`
	Delivery  *ublDelivery   `xml:"cac:Delivery"`
	Charges   []ublCharge    `xml:"cac:AllowanceCharge"`
	Tax       ublTaxTotal    `xml:"cac:TaxTotal"`
	Total     ublTotal       `xml:"cac:AnticipatedMonetaryTotal"`
	OrderLine []ublOrderLine `xml:"cac:OrderLine"`
}

type ublCustomer struct {
	Party *ublParty `xml:"cac:Party"`
}

type ublParty struct {
	Identification *ublID       `xml:"cac:PartyIdentification"`
	Name           *ublName     `xml:"cac:PartyName"`
	Address        *ublAddress  `xml:"cac:PostalAddress"`
	Tax            *ublPartyTax `xml:"cac:PartyTaxScheme"`
	Legal          *ublLegal    `xml:"cac:PartyLegalEntity"`
	Contact        *ublContact  `xml:"cac:Contact"`
}

type ublID struct {
	ID string `xml:"cbc:ID"`
}

type ublName struct {
	Name string `xml:"cbc:Name"`
}

type ublLegal struct {
	Name string `xml:"cbc:RegistrationName"`
}

type ublContact struct {
	Mail string `xml:"cbc:ElectronicMail"`
}

type ublPartyTax struct {
	Company string       `xml:"cbc:CompanyID"`
	Scheme  ublTaxScheme `xml:"cac:TaxScheme"`
}

type ublAddress struct {
	Street   string      `xml:"cbc:StreetName,omitempty"`
	City     string      `xml:"cbc:CityName,omitempty"`
	Postcode string      `xml:"cbc:PostalZone,omitempty"`
	Line     *ublLine    `xml:"cac:AddressLine"`
	Country  *ublCountry `xml:"cac:Country"`
}

type ublLine struct {
	Line string `xml:"cbc:Line"`
}

type ublCountry struct {
	Code string `xml:"cbc:IdentificationCode"`
}

type ublDelivery struct {
	Address *ublAddress `xml:"cac:DeliveryAddress"`
	Period  *ublPeriod  `xml:"cac:RequestedDeliveryPeriod"`
}

type ublPeriod struct {
	End string `xml:"cbc:EndDate"`
}

type ublAmount struct {
	Currency string `xml:"currencyID,attr"`
	Value    string `xml:",chardata"`
}

type ublQuantity struct {
	Unit  string `xml:"unitCode,attr"`
	Value string `xml:",chardata"`
}

type ublCharge struct {
	Charge  bool            `xml:"cbc:ChargeIndicator"`
	Reason  string          `xml:"cbc:AllowanceChargeReason"`
	Percent string          `xml:"cbc:MultiplierFactorNumeric,omitempty"`
	Amount  ublAmount       `xml:"cbc:Amount"`
	Base    *ublAmount      `xml:"cbc:BaseAmount"`
	Tax     *ublTaxCategory `xml:"cac:TaxCategory"`
}

type ublTaxCategory struct {
	ID      string       `xml:"cbc:ID"`
	Percent string       `xml:"cbc:Percent"`
	Scheme  ublTaxScheme `xml:"cac:TaxScheme"`
}

type ublTaxScheme struct {
	ID   string `xml:"cbc:ID"`
	Name string `xml:"cbc:Name"`
}

type ublTaxTotal struct {
	Amount ublAmount `xml:"cbc:TaxAmount"`
}

type ublTotal struct {
	Lines        ublAmount  `xml:"cbc:LineExtensionAmount"`
	TaxExclusive ublAmount  `xml:"cbc:TaxExclusiveAmount"`
	TaxInclusive ublAmount  `xml:"cbc:TaxInclusiveAmount"`
	Allowances   *ublAmount `xml:"cbc:AllowanceTotalAmount"`
	Charges      *ublAmount `xml:"cbc:ChargeTotalAmount"`
	Prepaid      *ublAmount `xml:"cbc:PrepaidAmount"`
	Rounding     *ublAmount `xml:"cbc:PayableRoundingAmount"`
	Payable      ublAmount  `xml:"cbc:PayableAmount"`
}

type ublOrderLine struct {
	Item ublLineItem `xml:"cac:LineItem"`
}

type ublLineItem struct {
	ID       int         `xml:"cbc:ID"`
	Note     string      `xml:"cbc:Note,omitempty"`
	Quantity ublQuantity `xml:"cbc:Quantity"`
	Net      ublAmount   `xml:"cbc:LineExtensionAmount"`
	Charges  []ublCharge `xml:"cac:AllowanceCharge"`
	Price    ublPrice    `xml:"cac:Price"`
	Item     ublItem     `xml:"cac:Item"`
}

type ublPrice struct {
	Amount ublAmount   `xml:"cbc:PriceAmount"`
	Base   ublQuantity `xml:"cbc:BaseQuantity"`
}

type ublItem struct {
	Name string         `xml:"cbc:Name"`
	Code ublID          `xml:"cac:SellersItemIdentification"`
	Tax  ublTaxCategory `xml:"cac:ClassifiedTaxCategory"`
}

// ublOrder writes one order as a UBL document.
// part is the part of the building that it is for, "" for the whole job.
func ublOrder(settings job.Settings, part string, o *purchase.Order) ([]byte, error) {
	w := ublWriter{settings: settings, part: part}
	text, err := xml.MarshalIndent(w.document(o), "", "  ")
	if err != nil {
		return nil, fmt.Errorf("order %s: %w", o.Number, err)
	}
	return append([]byte(xml.Header), append(text, '\n')...), nil
}

// ublWriter turns an order of a job into its document.
type ublWriter struct {
	settings job.Settings
	part     string
}

func (w ublWriter) document(o *purchase.Order) ublDocument {
	d := ublDocument{
		Space: ublOrderSpace, Aggregate: ublAggregateSpace, Basic: ublBasicSpace,
		Version: "2.4", ID: o.Number, IssueDate: isoDate(w.settings.Date), Type: ublOrderType, Notes: w.notes(o),
		Currency: w.settings.Currency.Code, Reference: w.settings.Name, Lines: len(o.Lines),
		Buyer: w.buyer(), Seller: w.seller(o.Supplier), Delivery: w.delivery(o),
		Tax: ublTaxTotal{w.amount(o.Tax)},
		Total: ublTotal{Lines: w.amount(o.Goods), TaxExclusive: w.amount(o.Net), TaxInclusive: w.amount(o.Gross), Payable: w.amount(o.Payable),
			Allowances: w.unlessZero(o.Allowance), Charges: w.unlessZero(o.Charges()), Prepaid: w.unlessZero(o.Paid), Rounding: w.unlessZero(o.Rounding)},
	}
	for _, tax := range o.Taxes {
		if !tax.Allowance.IsZero() {
			d.Charges = append(d.Charges, w.allowance(o, tax))
		}
	}
	for _, c := range charges(o) {
		tax := w.taxCategory(w.settings.TaxPercent)
		d.Charges = append(d.Charges, ublCharge{Charge: true, Reason: c.reason, Amount: w.amount(c.amount), Tax: &tax})
	}
	for i, line := range o.Lines {
		d.OrderLine = append(d.OrderLine, ublOrderLine{w.line(i+1, line)})
	}
	return d
}

// allowance is a tax rate's share of the order's discount: the standard gives every
// allowance one tax category.
func (w ublWriter) allowance(o *purchase.Order, tax purchase.Tax) ublCharge {
	base, category := w.amount(tax.Goods), w.taxCategory(tax.Percent)
	return ublCharge{Reason: orderDiscountReason, Percent: o.DiscountPercent().String(), Amount: w.amount(tax.Allowance), Base: &base, Tax: &category}
}

func (w ublWriter) notes(o *purchase.Order) []string {
	if o.Weight.IsZero() {
		return nil
	}
	return []string{fmt.Sprintf("Weight of the goods, as far as it is known: %s kg.", o.Weight)}
}

func (w ublWriter) buyer() ublCustomer {
	if w.settings.Company == "" {
		return ublCustomer{}
	}
	party := &ublParty{Name: &ublName{w.settings.Company}, Legal: &ublLegal{w.settings.Company}}
	if w.settings.CompanyAddress != "" {
		party.Address = &ublAddress{Line: &ublLine{w.settings.CompanyAddress}}
	}
	return ublCustomer{party}
}

func (w ublWriter) seller(s *job.Supplier) ublCustomer {
	party := &ublParty{Identification: &ublID{s.Code}, Name: &ublName{s.Name}, Legal: &ublLegal{s.Name}}
	address := ublAddress{Street: s.Address, City: s.City, Postcode: s.Postcode}
	if s.Country != "" {
		address.Country = &ublCountry{strings.ToUpper(s.Country)}
	}
	if address != (ublAddress{}) {
		party.Address = &address
	}
	if s.TaxNumber != "" {
		party.Tax = &ublPartyTax{Company: w.taxNumber(s), Scheme: w.taxScheme()}
	}
	if s.Email != "" {
		party.Contact = &ublContact{s.Email}
	}
	return ublCustomer{party}
}

// taxNumber is a supplier's; that of value added tax begins with the country that
// gave it (ISO 3166).
func (w ublWriter) taxNumber(s *job.Supplier) string {
	if prefixed := len(s.TaxNumber) > 1 && letters(s.TaxNumber[:2]); w.taxScheme().ID != "VAT" || prefixed {
		return s.TaxNumber
	}
	return strings.ToUpper(s.Country) + s.TaxNumber
}

func letters(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return r < 'A' || r > 'Z' })
}

// delivery is where the goods go, and by when they are needed.
func (w ublWriter) delivery(o *purchase.Order) *ublDelivery {
	d := &ublDelivery{}
	if place := strings.TrimPrefix(w.settings.Site+", "+w.part, ", "); w.settings.Site+w.part != "" {
		d.Address = &ublAddress{Line: &ublLine{strings.TrimSuffix(place, ", ")}}
	}
	if !o.NeededBy.IsZero() {
		d.Period = &ublPeriod{isoDate(o.NeededBy)}
	}
	if *d == (ublDelivery{}) {
		return nil
	}
	return d
}

// line states a price of one sold unit before discount, exactly, the discount as
// the line's allowance, and its charge.
func (w ublWriter) line(number int, line purchase.Line) ublLineItem {
	p := line.Product
	unit := p.SoldBy.Code()
	price := line.Price.Mul(line.UnitsPerSold)
	item := ublLineItem{
		ID: number, Note: palletNote(line), Quantity: ublQuantity{unit, line.Quantity.String()}, Net: w.amount(line.Net),
		Price: ublPrice{ublAmount{w.settings.Currency.Code, price.String()}, ublQuantity{unit, "1"}},
		Item:  ublItem{Name: line.Words(), Code: ublID{p.Code}, Tax: w.taxCategory(line.TaxPercent)},
	}
	gross := w.settings.Currency.Round(line.Quantity.Mul(price))
	if discount := gross.Sub(line.Goods()); !discount.IsZero() {
		base := w.amount(gross)
		item.Charges = append(item.Charges, ublCharge{Reason: "Discount", Percent: line.Discount.String(), Amount: w.amount(discount), Base: &base})
	}
	if !line.Charge.IsZero() {
		item.Charges = append(item.Charges, ublCharge{Charge: true, Reason: "Charge on the line, whatever its quantity", Amount: w.amount(line.Charge)})
	}
	return item
}

// palletNote tells the supplier how the packs come on pallets.
func palletNote(line purchase.Line) string {
	full, rest, said := line.Pallets()
	if !said {
		return ""
	}
	return fmt.Sprintf("Full pallets: %d. On a part pallet: %d of %d.", full, rest, line.Product.PacksPerPallet)
}

// taxCategory is by UN/EDIFACT code list 5305: S for the standard rate, Z for
// goods taxed at nothing.
func (w ublWriter) taxCategory(percent decimal.Decimal) ublTaxCategory {
	category := ublTaxCategory{ID: "S", Percent: percent.String(), Scheme: w.taxScheme()}
	if percent.IsZero() {
		category.ID = "Z"
	}
	return category
}

// taxScheme is by UN/EDIFACT code list 5153: value added tax, goods and
// services tax, or another.
func (w ublWriter) taxScheme() ublTaxScheme {
	scheme := ublTaxScheme{ID: "OTH", Name: w.settings.TaxName}
	if upper := strings.ToUpper(w.settings.TaxName); upper == "VAT" || upper == "GST" {
		scheme.ID = upper
	}
	return scheme
}

func (w ublWriter) amount(a money.Amount) ublAmount {
	return ublAmount{w.settings.Currency.Code, a.String()}
}

// unlessZero is an amount that is left out when it is nothing.
func (w ublWriter) unlessZero(a money.Amount) *ublAmount {
	if a.IsZero() {
		return nil
	}
	amount := w.amount(a)
	return &amount
}

func isoDate(t time.Time) string { return t.Format(time.DateOnly) }
