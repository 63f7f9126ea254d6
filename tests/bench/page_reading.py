# SPDX-License-Identifier: MIT
"""Reads HTML with the standard library's parser; prints how many pictures it holds and the processor time in seconds.

Usage: page_reading.py FILE
"""
import html.parser
import sys
import time


class Pictures(html.parser.HTMLParser):
    count = 0

    def handle_starttag(self, tag, attributes):
        self.count += tag == "svg"


with open(sys.argv[1], encoding="utf-8") as file:
    text = file.read()
start = time.process_time()
pictures = Pictures()
pictures.feed(text)
print(pictures.count, time.process_time() - start)
