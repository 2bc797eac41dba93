#include "cro-currency.h"

#include <string.h>

/* Three letters and a space each, sorted, by digits of the minor unit. The last list is of codes
 * that have none: metals, units of account, what is no currency. */
static const struct { const char *codes; int digits; } lists[] = {
  { "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    0 },
  { "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD "
    "BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD "
    "EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR "
    "IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP "
    "MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN "
    "QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB "
    "TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW "
    "ZWG",
    2 },
  { "BHD IQD JOD KWD LYD OMR TND",
    3 },
  { "CLF UYW",
    4 },
  { "XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX",
    -1 },
};

bool
cro_currency_find (const char *code,
                   size_t      length,
                   int        *digits)
{
  if (length != 3)
    return false;
  for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
    for (const char *at = lists[i].codes;; at += 4)
      {
        if (memcmp (at, code, 3) == 0)
          {
            *digits = lists[i].digits;
            return true;
          }
        if (at[3] == '\0')
          break;
      }
  return false;
}

bool
cro_currency_list (size_t index,
                   char   code[4])
{
  for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
    {
      size_t n = (strlen (lists[i].codes) + 1) / 4;

      if (lists[i].digits >= 0 && index < n)
        {
          memcpy (code, lists[i].codes + 4 * index, 3);
          code[3] = '\0';
          return true;
        }
      index -= lists[i].digits >= 0 ? n : 0;
    }
  return false;
}
