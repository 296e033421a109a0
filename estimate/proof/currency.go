package proof

import "strings"

// currencies are the codes of ISO 4217 list one (2024-06-25) that have a minor
// unit, by its decimals. Funds, metals and test codes without one are no money.
var currencies = map[int32]string{
	0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
	2: "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE " +
		"CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD " +
		"HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK " +
		"MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD " +
		"RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH " +
		"USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG",
	3: "BHD IQD JOD KWD LYD OMR TND",
	4: "CLF UYW",
}

// minorUnit is the number of decimals of a currency.
func minorUnit(code string) (decimals int32, ok bool) {
	for decimals, codes := range currencies {
		for _, known := range strings.Fields(codes) {
			if known == code {
				return decimals, true
			}
		}
	}
	return 0, false
}
