"use strict";
location.replace("/");
